using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Sessions;

public class ReplayTests
{
    private static readonly TestRig Rig = new() { Repeat = 3, Bench = { ["stop-pressed-at"] = 6.0 } };
    private static readonly IReadOnlyList<Channel> Channels = ChannelsOf();
    private static readonly MemoryRecorder Record = Run.Of(Rig).Record;

    [Fact]
    public void A_recorded_run_comes_out_the_same_scan_by_scan()
    {
        (string? difference, long equal) = Again(Record.Scans, Record.Samples);

        Assert.Null(difference);
        Assert.Equal(Record.Scans.Count, equal);
        Assert.Contains(Record.Scans, s => s.State == RigState.Hold);
        Assert.Contains(Record.Scans, s => s.NewlyLatched != 0);
    }

    [Fact]
    public void One_changed_speed_reading_is_found_from_the_scan_that_folded_it()
    {
        int at = Record.Samples[0].FindIndex(s => s.Channel == 0 && s.Value > 1000);
        List<Sample> changed = [.. Record.Samples[0]];
        changed[at] = changed[at] with { Value = changed[at].Value + 0.1 };

        (string? difference, long equal) = Again(Record.Scans, [changed, .. Record.Samples.Skip(1)]);

        Assert.NotNull(difference);
        Assert.Equal(Record.Scans.FindIndex(s => s.Watermarks[0] > at), equal);
    }

    [Theory]
    [InlineData("state", "the state was ")]
    [InlineData("step", "step ")]
    [InlineData("outputs", "the throttle was ")]
    [InlineData("demand", "the interlock lid-closed asked for ")]
    [InlineData("receipt", "the command ")]
    [InlineData("latch", "other causes are latched")]
    [InlineData("hash", "the kernel's state differs inside")]
    public void One_changed_record_is_found_and_named(string what, string said)
    {
        int at = Record.Scans.FindIndex(s => what == "receipt" ? s.ReceiptCount > 0 : s.State == RigState.Hold);
        List<ScanRecord> changed = [.. Record.Scans];
        ScanRecord record = changed[at];
        Change(what, ref record);
        changed[at] = record;

        (string? difference, long equal) = Again(changed, Record.Samples);

        Assert.StartsWith(said, difference, StringComparison.Ordinal);
        Assert.Equal(at, equal);
    }

    [Fact]
    public void A_run_whose_interlocks_are_not_installed_now_cannot_be_replayed_and_says_which()
    {
        PluginCatalog empty = PluginCatalog.Of("none", [], []);

        AssemblyException refused = Assert.Throws<AssemblyException>(() => Replay.Of(Rig.Documents, Channels, empty));

        Assert.Equal(4, refused.Reasons.Count);
        Assert.Contains("interlock over-speed: no installed plugin makes over-speed", refused.Reasons);
    }

    [Fact]
    public void With_other_interlocks_the_sequence_comes_out_the_same_from_the_recorded_demands()
    {
        TestRig other = OtherLid();
        Assert.NotNull(Run.Again(other, Channels, Record.Scans, Record.Samples).Difference);

        (string? difference, long equal) = Run.Again(Replay.OfRecordedDemands(other.Documents, Channels, other.Catalog), Record.Scans, Record.Samples);

        Assert.Null(difference);
        Assert.Equal(Record.Scans.Count, equal);
    }

    [Theory]
    [InlineData("state")]
    [InlineData("step")]
    [InlineData("outputs")]
    [InlineData("receipt")]
    [InlineData("latch")]
    public void One_changed_record_is_found_under_the_recorded_demands_too(string what)
    {
        int at = Record.Scans.FindIndex(s => what == "receipt" ? s.ReceiptCount > 0 : s.State == RigState.Hold);
        List<ScanRecord> changed = [.. Record.Scans];
        ScanRecord record = changed[at];
        Change(what, ref record);
        changed[at] = record;

        (string? difference, long equal) = Run.Again(Replay.OfRecordedDemands(Rig.Documents, Channels, Rig.Catalog), changed, Record.Samples);

        Assert.NotNull(difference);
        Assert.Equal(at, equal);
    }

    /// <summary>A demand that was recorded is what the sequence is made from: another one leads elsewhere.</summary>
    [Fact]
    public void A_recorded_demand_that_was_another_leads_to_another_state()
    {
        int at = Record.Scans.FindIndex(s => s.State == RigState.Hold);
        List<ScanRecord> changed = [.. Record.Scans];
        ScanRecord record = changed[at];
        record.Demands[0] = Demand.Object(DemandAction.CutPower, 1, -1, 0, 0, 0, record.Now);
        changed[at] = record;

        (string? difference, long equal) = Run.Again(Replay.OfRecordedDemands(Rig.Documents, Channels, Rig.Catalog), changed, Record.Samples);

        Assert.StartsWith("the state was ", difference, StringComparison.Ordinal);
        Assert.Equal(at, equal);
    }

    /// <summary>A lid interlock that asks for a stop from 3 s on, which the recorded one never did.</summary>
    [Fact]
    public void A_changed_interlock_shows_what_would_have_happened_and_when_the_two_part()
    {
        TestRig other = OtherLid();
        Replay replay = Replay.Of(other.Documents, Channels, other.Catalog);
        (string? difference, long equal) = Run.Again(replay, Record.Scans, Record.Samples, replay.NextChanged);

        Assert.Contains("would have been in safe-stop; lid-closed would have tripped at 7 against 5", difference, StringComparison.Ordinal);
        Assert.Equal(Record.Scans.FindIndex(s => s.Now >= TimeSpan.FromSeconds(3)), equal);
        Assert.True(Record.Scans[(int)equal].State is not RigState.SafeStop);
    }

    // Stands in for a new version of the plugin.
    private static TestRig OtherLid() => new()
    {
        Repeat = 3, Bench = { ["stop-pressed-at"] = 6.0 }, Replaced = { ["lid-closed"] = _ => ToyInterlock.ObjectsFrom(TimeSpan.FromSeconds(3)) },
    };

    private static void Change(string what, ref ScanRecord record)
    {
        switch (what)
        {
            case "state":
                record.State = RigState.Idle;
                break;
            case "step":
                record.Step++;
                break;
            case "outputs":
                record.Outputs.Throttle += 1e-12;
                break;
            case "latch":
                record.Latched ^= 8;
                break;
            case "demand":
                record.Demands[0].Action = DemandAction.Refuse;
                break;
            case "receipt":
                record.Receipts[0] = record.Receipts[0] with { Refusal = RefusalReason.WrongState };
                break;
            default:
                record.StateHash ^= 1;
                break;
        }
    }

    private static IReadOnlyList<Channel> ChannelsOf()
    {
        using AssembledRig rig = Rig.Assemble();
        return rig.Channels;
    }

    private static (string? Difference, long Equal) Again(IReadOnlyList<ScanRecord> scans, IReadOnlyList<List<Sample>> samples) =>
        Run.Again(Rig, Channels, scans, samples);
}
