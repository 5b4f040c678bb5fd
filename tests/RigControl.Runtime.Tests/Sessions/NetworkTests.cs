using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Sessions;

/// <summary>Those who are not at the bench: they see everything, may stop, may leave a word, and cost the run nothing.</summary>
public class NetworkTests
{
    [Fact]
    [Trait("Requirement", "SAF-071")]
    public void A_stop_from_the_network_ends_the_run_in_safe_stop_and_act_and_trip_say_who()
    {
        (RunResult result, MemoryRecorder record) = At(RigState.Hold, network => network.Stop("doorway"));

        Assert.Equal(RunOutcome.SafeStop, result.Outcome);
        Assert.Single(record.Scans, s => s.State == RigState.Hold);
        RigEvent act = Assert.Single(record.Events, e => e is { Name: EventNames.OperatorAct, Subject: "stop" });
        Assert.Equal(("stop by the network (doorway)", "doorway"), (act.Text, act.Data["client"]));
        Assert.Equal("stopped by the network (doorway)", record.The(EventNames.Trip).Text);
    }

    [Fact]
    public void A_word_from_the_network_stands_in_the_record_and_changes_no_scan()
    {
        (RunResult result, MemoryRecorder record) = At(RigState.Hold, network => network.Tell(EventNames.TripSeen, "lid-closed", "seen by the network (doorway)", "doorway"));

        Assert.Equal(RunOutcome.Completed, result.Outcome);
        RigEvent word = record.The(EventNames.TripSeen);
        Assert.Equal(("lid-closed", "seen by the network (doorway)", "doorway"), (word.Subject, word.Text, word.Data["client"]));
        (_, MemoryRecorder without) = Run.Of(new TestRig());
        Assert.Equal(without.Scans.Select(s => s.StateHash), record.Scans.Select(s => s.StateHash));
    }

    [Fact]
    [Trait("Requirement", "SAF-074")]
    public void A_flood_of_words_leaves_as_many_as_may_wait_and_no_more()
    {
        bool flooded = false;
        (RunResult result, MemoryRecorder record) = At(RigState.Hold, network =>
        {
            for (int i = 0; i < 100_000 && !flooded; i++)
                network.Tell(EventNames.NetworkRefusal, "stop", "refused", "");
            flooded = true;
        });

        Assert.Equal(RunOutcome.Completed, result.Outcome);
        Assert.InRange(record.Events.Count(e => e.Name == EventNames.NetworkRefusal), 1, 64);
    }

    [Fact]
    public void A_sink_sees_every_scan_and_hears_every_event_in_the_order_of_the_record()
    {
        using AssembledRig rig = new TestRig().Assemble();
        MemoryRecorder record = new();
        Kept sink = new();
        using RunSession session = new(rig, record, new ScriptedOperator(rig.Documents.Procedure), Pace.Max, [], null, sink);
        session.Run();

        Assert.Equal(record.Scans.Select(s => s.StateHash), sink.Seen);
        Assert.Equal(record.Events, sink.Heard);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    [Trait("Requirement", "SAF-070")]
    public void A_sink_that_fails_is_left_out_and_noted_and_the_run_goes_on(bool inScan)
    {
        using AssembledRig rig = new TestRig().Assemble();
        MemoryRecorder record = new();
        Kept sink = new() { FailsInScan = inScan, FailsInWord = !inScan };
        using RunSession session = new(rig, record, new ScriptedOperator(rig.Documents.Procedure), Pace.Max, [], null, sink);
        RunResult result = session.Run();

        Assert.Equal(RunOutcome.Completed, result.Outcome);
        Assert.Contains("no longer published", Assert.Single(record.Events, e => e.Name == EventNames.TelemetryNote).Text);
        (_, MemoryRecorder without) = Run.Of(new TestRig());
        Assert.Equal(without.Scans.Select(s => s.StateHash), record.Scans.Select(s => s.StateHash));
    }

    // Does something once, as soon as the run is in a state.
    private static (RunResult Result, MemoryRecorder Record) At(RigState state, Action<INetworkPort> act)
    {
        using AssembledRig rig = new TestRig().Assemble();
        MemoryRecorder record = new();
        RunSession? running = null;
        bool done = false;
        MeddlingOperator watching = new((in ScanRecord r, CommandInbox _) =>
        {
            if (r.State != state || done)
                return;
            done = true;
            act(running!.Network);
        });
        return (Run.Of(rig, record, watching, before: s => running = s), record);
    }

    private sealed class Kept : IRunSink
    {
        public List<ulong> Seen { get; } = [];

        public List<RigEvent> Heard { get; } = [];

        public bool FailsInScan { get; init; }

        public bool FailsInWord { get; init; }

        public void See(in ScanRecord record, in InputImage image)
        {
            if (FailsInScan)
                throw new InvalidOperationException("a fault of its own");
            Seen.Add(record.StateHash);
        }

        public void Hear(RigEvent happened)
        {
            if (FailsInWord)
                throw new InvalidOperationException("a fault of its own");
            Heard.Add(happened);
        }
    }
}
