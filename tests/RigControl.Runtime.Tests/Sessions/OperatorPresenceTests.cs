using RigControl.Interlocks;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Sessions;

/// <summary>Whether somebody is at the bench is a channel like any other.</summary>
public class OperatorPresenceTests
{
    [Fact]
    public void A_run_with_somebody_at_the_bench_is_attended_from_its_first_scan_to_its_last()
    {
        (RunResult result, double[] present) = Attended(new ScriptedOperator(new TestRig().Documents.Procedure));

        Assert.Equal(RunOutcome.Completed, result.Outcome);
        Assert.All(present, p => Assert.Equal(1, p));
    }

    [Trait("Requirement", "SAF-062")]
    [Fact]
    public void A_rig_whose_operator_leaves_while_it_holds_stops_and_says_so()
    {
        AbsentOperator leaving = new();
        (RunResult result, double[] present) = Attended(leaving);

        Assert.Equal(RunOutcome.SafeStop, result.Outcome);
        Assert.Equal((1, 0), (present[0], present[^1]));
        Assert.InRange((leaving.StoppedAt - leaving.LeftAt).TotalSeconds, 0.001, 0.06);
    }

    private static (RunResult Result, double[] Present) Attended(IOperator bench)
    {
        using AssembledRig rig = new TestRig { Interlocks = { ["attended"] = OperatorPresent } }.Assemble();
        MemoryRecorder record = new();
        RunResult result = Run.Of(rig, record, bench);
        int channel = rig.Channels.Single(c => c.Name == ChannelNames.OperatorPresent).Index;
        return (result, [.. record.Samples[^1].Where(s => s.Channel == channel).Select(s => s.Value)]);
    }

    private static IInterlock OperatorPresent(InterlockContext context) =>
        ((IInterlockPlugin)new OperatorPresentPlugin()).Create(new OperatorPresentOptions(), context);

    /// <summary>Gives the three acts and walks away once the level is held.</summary>
    private sealed class AbsentOperator : IOperator
    {
        private readonly ScriptedOperator _script = new(new TestRig().Documents.Procedure);

        public string Name => "absent";

        public bool HasGivenUp => false;

        public bool IsPresent { get; private set; } = true;

        public TimeSpan LeftAt { get; private set; }

        public TimeSpan StoppedAt { get; private set; }

        public void See(in ScanRecord record, CommandInbox inbox)
        {
            _script.See(record, inbox);
            if (record.State == RigState.Hold && IsPresent)
                (IsPresent, LeftAt) = (false, record.Now);
            if (record.State == RigState.SafeStop && record.Before == RigState.Hold)
                StoppedAt = record.Now;
        }
    }
}
