namespace RigControl.Kernel.Tests;

/// <summary>Whoever asks gets exactly one answer.</summary>
public class ReceiptTests
{
    [Fact]
    public void Every_command_gets_one_receipt_in_the_order_of_arrival()
    {
        foreach (RigState state in Enum.GetValues<RigState>())
        {
            KernelBench bench = new KernelBench().To(state);
            CommandKind[] kinds = [CommandKind.Mark, CommandKind.Start, CommandKind.Lock, CommandKind.Arm, CommandKind.Unlock, CommandKind.Reset, CommandKind.Stop];
            Command[] commands = [.. kinds.Select(k => bench.Act(k))];
            bench.Scan(commands);
            Receipt[] receipts = bench.Record.Receipts[..bench.Record.ReceiptCount].ToArray();
            Assert.Equal(commands.Select(c => (c.Id, c.Kind, c.Source)), receipts.Select(r => (r.Command, r.Kind, r.Source)));
            Assert.DoesNotContain(receipts, r => r.Refusal == RefusalReason.NotConsidered);
        }
    }

    [Fact]
    public void A_scan_without_commands_has_no_receipts()
    {
        KernelBench bench = new();
        bench.Give(CommandKind.Mark);
        Assert.Equal(0, bench.Scan().Record.ReceiptCount);
    }

    [Fact]
    public void A_full_inbox_is_answered_whole_and_one_more_is_the_caller_s_mistake()
    {
        KernelBench bench = new();
        bench.Scan([.. Enumerable.Range(0, Capacity.Commands).Select(_ => bench.Act(CommandKind.Mark))]);
        Assert.Equal(Capacity.Commands, bench.Record.ReceiptCount);
        Assert.Throws<ArgumentOutOfRangeException>(() => bench.Scan([.. Enumerable.Range(0, Capacity.Commands + 1).Select(_ => bench.Act(CommandKind.Stop))]));
    }

    [Fact]
    public void A_mark_lights_the_marker_for_a_tenth_of_a_second_in_any_state()
    {
        foreach (RigState state in Enum.GetValues<RigState>())
        {
            KernelBench bench = new KernelBench().To(state).Do(CommandKind.Mark);
            int lit = 0;
            bench.OnScan = () => lit += bench.Outputs.Marker ? 1 : 0;
            Assert.True(bench.Outputs.Marker);
            bench.ScanFor(0.25);
            Assert.Equal((19, state), (lit, bench.Rig));
        }
    }
}
