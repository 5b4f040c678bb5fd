using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Scanning;

public sealed class NarratorTests : IDisposable
{
    private const int Belt = 4;

    private readonly AssembledRig _rig;
    private readonly Narrator _narrator;
    private Func<string> _explain = () => "the belt is off";

    public NarratorTests()
    {
        _rig = new TestRig { Repeat = 3, Interlocks = { ["belt"] = _ => new ToyInterlock { OnExplain = () => _explain() } } }.Assemble();
        _narrator = new Narrator(_rig);
        Tell(Standing);
    }

    public void Dispose() => _rig.Dispose();

    [Fact]
    public void The_first_record_tells_the_state_the_rig_is_in()
    {
        List<RigEvent> told = [];
        new Narrator(_rig).Tell(Standing, told);

        RigEvent entered = Assert.Single(told);
        Assert.Equal((EventNames.StateEntered, "SafeStop", "safe-stop"), (entered.Name, entered.Subject, entered.Text));
    }

    [Fact]
    public void A_scan_in_which_nothing_happened_tells_nothing() => Assert.Empty(Tell(Standing));

    [Fact]
    public void A_new_state_is_told_with_what_led_to_it()
    {
        RigEvent entered = Assert.Single(Tell(Standing with { State = RigState.Idle, Before = RigState.SafeStop, Fired = Trigger.Reset }));

        Assert.Equal((EventNames.StateEntered, "idle"), (entered.Name, entered.Text));
        Assert.Equal(("Idle", "Reset"), (entered.Data["state"], entered.Data["trigger"]));
    }

    [Fact]
    public void Each_step_of_each_repeat_is_told_once()
    {
        ScanRecord second = Standing with { Step = 1, Repeat = 1 };

        RigEvent entered = Assert.Single(Tell(second));
        Assert.Equal((EventNames.StepEntered, "step 2 of 5, spin-up, repeat 1 of 3"), (entered.Name, entered.Text));
        Assert.Empty(Tell(second));
        Assert.Equal("step 2 of 5, spin-up, repeat 2 of 3", Assert.Single(Tell(second with { Repeat = 2 })).Text);
    }

    [Fact]
    public void An_accepted_command_is_an_operators_act_with_its_source()
    {
        RigEvent act = Assert.Single(Tell(Answered(CommandKind.Reset, RefusalReason.None)));

        Assert.Equal((EventNames.OperatorAct, "reset", "reset by the operator at the bench"), (act.Name, act.Subject, act.Text));
        Assert.Equal(42L, act.Data["command"]);
    }

    [Theory]
    [InlineData(RefusalReason.NotAtStandstill, "arm refused: the rotor is not proven to stand still")]
    [InlineData(RefusalReason.WrongState, "arm refused: arming begins in idle; reset comes before it")]
    [InlineData(RefusalReason.NotConsidered, "arm refused: it was not considered")]
    [InlineData(RefusalReason.InterlockObjects, "arm refused: an interlock objects")]
    public void A_refusal_says_why(RefusalReason reason, string text)
    {
        RigEvent refusal = Assert.Single(Tell(Answered(CommandKind.Arm, reason)));

        Assert.Equal((EventNames.Refusal, "arm", text), (refusal.Name, refusal.Subject, refusal.Text));
    }

    [Fact]
    public void Every_interlock_that_objects_to_a_command_gets_an_event_of_its_own()
    {
        ScanRecord record = Answered(CommandKind.Arm, RefusalReason.InterlockObjects);
        record.Demands[0] = Objection(channel: 6);
        record.Demands[Belt] = Objection(channel: 0);

        List<RigEvent> told = Tell(record);

        Assert.Equal(["lid-closed", "belt"], told.Select(e => e.Subject));
        Assert.All(told, e => Assert.Equal(EventNames.Refusal, e.Name));
        Assert.Equal("the belt is off", told[1].Text);
    }

    [Fact]
    public void A_trip_tells_its_reason_its_channel_and_the_time_from_the_reading_to_the_stop()
    {
        RigEvent trip = Assert.Single(Tell(Tripped(Objection(channel: 0))));

        Assert.Equal((EventNames.Trip, "belt", "the belt is off"), (trip.Name, trip.Subject, trip.Text));
        Assert.Equal(_rig.Channels[0].Name, trip.Data["channel"]);
        Assert.Equal(0.998, (double)trip.Data["at"], 9);
        Assert.Equal(0.002, (double)trip.Data["reaction"], 9);
    }

    [Fact]
    public void A_trip_tells_what_was_measured_against_what_what_was_done_and_what_comes_before_the_next_reset()
    {
        RigEvent trip = Assert.Single(Tell(Tripped(Objection(channel: 0))));

        Assert.Equal((Objection(0).Value, Objection(0).Limit), ((double)trip.Data["value"], (double)trip.Data["limit"]));
        Assert.Equal("output stopped, power off", trip.Data["done"]);
        Assert.Equal("the cause is gone, the rotor is proven to stand, and the operator resets at the bench", trip.Data["before-reset"]);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(9999)]
    [InlineData(int.MinValue)]
    public void A_trip_whose_interlock_names_no_channel_that_there_is_is_told_all_the_same(int channel) =>
        Assert.Equal("", Assert.Single(Tell(Tripped(Objection(channel)))).Data["channel"]);

    [Fact]
    public void An_interlock_that_cannot_explain_itself_does_not_hide_that_it_tripped()
    {
        _explain = () => throw new InvalidOperationException();
        Assert.Equal("the interlock belt objects", Assert.Single(Tell(Tripped(Objection(0)))).Text);

        _explain = () => "";
        Assert.Equal("the interlock belt objects", _narrator.Explain(Belt, Objection(0)));
        _explain = () => null!;
        Assert.Equal("the interlock belt objects", _narrator.Explain(Belt, Objection(0)));
    }

    [Fact]
    public void An_interlock_that_failed_is_called_failed() =>
        Assert.Equal("the interlock belt itself failed", Assert.Single(Tell(Tripped(Objection(0) with { Reason = ushort.MaxValue }))).Text);

    [Fact]
    public void Every_cause_of_the_kernels_own_is_a_trip_with_a_name_and_a_sentence_of_its_own()
    {
        TripCause[] causes = [.. Enum.GetValues<TripCause>().Where(c => c != TripCause.None)];
        TripCause all = causes.Aggregate((a, b) => a | b);

        List<RigEvent> told = Tell(Standing with { NewCauses = all, Causes = all });

        Assert.Equal(causes.Length, told.Count);
        Assert.Equal(causes.Length, told.Select(e => e.Subject).Distinct().Count());
        Assert.Equal(causes.Length, told.Select(e => e.Text).Distinct().Count());
        Assert.Contains(told, e => e is { Subject: "host-stop", Text: "stopped by the host" });
    }

    [Fact]
    public void A_finished_procedure_is_told_once()
    {
        ScanRecord done = Standing with { Step = 4, Repeat = 3 };
        Tell(done);

        Assert.Equal((EventNames.Finished, "the procedure is done"), NameAndText(Assert.Single(Tell(done with { Finished = true }))));
        Assert.Empty(Tell(done with { Finished = true }));
    }

    [Theory]
    [InlineData(2, 1)]
    [InlineData(3, 2)]
    public void Repeats_that_end_early_are_not_called_done_not_even_before_the_last_one(int repeat, int kept)
    {
        ScanRecord early = Standing with { Step = 0, Repeat = repeat };
        Tell(early);

        Assert.Equal(
            (EventNames.RepeatsEnded, $"the repeats end after {kept} of 3: the lid did not stay locked"),
            NameAndText(Assert.Single(Tell(early with { Finished = true }))));
    }

    private static (string, string) NameAndText(RigEvent e) => (e.Name, e.Text);

    private static ScanRecord Standing
    {
        get
        {
            ScanRecord record = new() { Scan = 200, Now = TimeSpan.FromSeconds(1), InterlockCount = 5 };
            for (int i = 0; i < 5; i++)
                record.Demands[i] = Demand.Proceed(-1, 0, 0, 1, record.Now);
            return record;
        }
    }

    private static Demand Objection(int channel) => Demand.Object(DemandAction.CutPower, 1, channel, 7, 5, -0.4, TimeSpan.FromSeconds(0.998));

    private static ScanRecord Answered(CommandKind kind, RefusalReason reason)
    {
        ScanRecord record = Standing with { ReceiptCount = 1 };
        record.Receipts[0] = new Receipt(42, kind, CommandSource.Bench, reason);
        return record;
    }

    private static ScanRecord Tripped(Demand demand)
    {
        ScanRecord record = Standing with { NewlyLatched = 1u << Belt, Latched = 1u << Belt };
        record.Demands[Belt] = demand;
        return record;
    }

    private List<RigEvent> Tell(ScanRecord record)
    {
        List<RigEvent> told = [];
        _narrator.Tell(record, told);
        return told;
    }
}
