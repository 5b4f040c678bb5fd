namespace RigControl.Kernel.Tests;

/// <summary>Steps that a person answers: nothing is energised, nothing is guessed, and the answer is in the record.</summary>
public class QuestionTests
{
    private static readonly Question Mass = new("mass", "mass on the scale", "g", 0, 500, 1, []);
    private static readonly Question Trial = new("rights-itself", "rights itself", "", 0, 1, 1, Question.Trial);

    private static Step Ask(Question question, double within = 60) =>
        new() { Kind = question.IsChoice ? StepKind.Trial : StepKind.Ask, Question = question, Timeout = Steps.Seconds(within) };

    private static Step Observe(double seconds) => Steps.Rest(seconds) with { Kind = StepKind.Observe };

    private static KernelBench Asked(params Step[] steps) => new KernelBench(new RigBuilder().Does(steps)).ToIdle().Scan();

    private static RefusalReason Answer(KernelBench bench, double value, CommandSource source = CommandSource.Bench)
    {
        bench.Scan(bench.Act(CommandKind.Answer, source) with { Value = value });
        return bench.Record.Receipts[0].Refusal;
    }

    [Fact]
    public void A_question_waits_for_its_answer_and_ends_with_it()
    {
        KernelBench bench = Asked(Ask(Mass)).ScanFor(30);
        Assert.Equal((RigState.Idle, 0, false), (bench.Rig, bench.Record.Step, bench.Record.Finished));
        Assert.Equal(RefusalReason.None, Answer(bench, 181));
        Assert.Equal((true, 181), (bench.Record.Finished, bench.Record.Receipts[0].Value));
    }

    [Fact]
    public void A_whole_procedure_of_questions_energises_nothing()
    {
        KernelBench bench = Asked(Ask(Mass), Observe(0.2), Ask(Trial));
        bench.OnScan += () => Assert.Equal((0, OutputSwitches.None), (bench.Outputs.Throttle, bench.Outputs.Switches));
        Assert.Equal(RefusalReason.NotInProcedure, bench.Give(CommandKind.Arm));
        Assert.Equal(RefusalReason.WrongState, bench.Give(CommandKind.Start));
        Answer(bench, 181);
        bench.ScanUntil(() => bench.Record.Step == 2).Scan();
        Assert.Equal(RefusalReason.None, Answer(bench, 1));
        Assert.True(bench.Record.Finished);
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(500.001)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_reading_outside_its_range_is_refused_and_asked_for_again(double value)
    {
        KernelBench bench = Asked(Ask(Mass));
        Assert.Equal(RefusalReason.NoSuchAnswer, Answer(bench, value));
        Assert.Equal(RefusalReason.None, Answer(bench, 500));
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(0.5)]
    [InlineData(2)]
    public void A_choice_that_is_none_is_refused(double value) => Assert.Equal(RefusalReason.NoSuchAnswer, Answer(Asked(Ask(Trial)), value));

    [Fact]
    public void Of_two_answers_in_one_scan_the_second_does_not_answer_a_question_that_nobody_has_read()
    {
        KernelBench bench = Asked(Ask(Mass), Ask(Mass));
        bench.Scan(bench.Act(CommandKind.Answer) with { Value = 1 }, bench.Act(CommandKind.Answer) with { Value = 2 });
        Assert.Equal([RefusalReason.None, RefusalReason.WrongState], new[] { bench.Record.Receipts[0].Refusal, bench.Record.Receipts[1].Refusal });
        Assert.Equal(1, bench.Record.Step);
    }

    [Fact]
    public void An_answer_where_nothing_is_asked_is_refused()
    {
        Assert.Equal(RefusalReason.NotInProcedure, Answer(Asked(Observe(5)), 1));
        Assert.Equal(RefusalReason.WrongState, Answer(new KernelBench(new RigBuilder().Does(Ask(Mass))).ToStandstill(), 1));
        Assert.Equal(RefusalReason.WrongState, Answer(new KernelBench().ToHold(), 1));
    }

    [Fact]
    public void Nobody_on_the_network_answers() => Assert.Equal(RefusalReason.NotFromHere, Answer(Asked(Ask(Mass)), 1, CommandSource.Network));

    [Fact]
    public void A_question_that_nobody_answers_stops_the_rig_after_its_time()
    {
        KernelBench bench = Asked(Ask(Mass, within: 5)).ScanUntil(RigState.SafeStop);
        Assert.Equal(TripCause.Deadline, bench.Record.NewCauses);
    }

    [Fact]
    public void A_question_after_a_coast_down_is_asked_with_everything_off_and_the_lid_may_be_opened_for_it()
    {
        KernelBench bench = new KernelBench(new RigBuilder().Times(2).Does(Steps.Arm(), Steps.SpinUp(), Steps.Hold(), Steps.CoastDown(), Ask(Mass)))
            .ToCoastDown().Read(ChannelNames.RotorSpeed, 0).ScanUntil(RigState.Idle).ToStandstill();
        bench.Do(CommandKind.Unlock).Read(ChannelNames.EnclosureLock, 0).Read(ChannelNames.EnclosureLid, 0).ScanFor(1);
        Assert.Equal((4, false), (bench.Record.Step, bench.Record.Finished));
        Assert.Equal(RefusalReason.None, Answer(bench, 181));
        bench.Scan();
        Assert.Equal((RigState.Idle, true, 2), (bench.Rig, bench.Record.Finished, bench.Record.Repeat));
    }

    [Trait("Requirement", "SAF-005")]
    [Fact]
    public void An_arm_given_in_the_very_scan_in_which_opened_repeats_would_begin_again_is_refused()
    {
        KernelBench bench = new KernelBench(new RigBuilder().Times(2).Does(Steps.Arm(), Steps.SpinUp(), Steps.Hold(), Steps.CoastDown(), Steps.Rest(0.5)))
            .ToCoastDown().Read(ChannelNames.RotorSpeed, 0).ScanUntil(RigState.Idle).Read(ChannelNames.EnclosureLid, 0).Scan().Read(ChannelNames.EnclosureLid, 1);
        bench.ScanUntil(() => bench.Record.Step == 0);
        Assert.False(bench.Record.Finished);
        Assert.Equal(RefusalReason.NotInProcedure, bench.Give(CommandKind.Arm));
        Assert.True(bench.Record.Finished);
    }

    [Fact]
    public void The_marker_shows_at_the_entry_of_a_step_that_asks_for_it()
    {
        KernelBench bench = new KernelBench(new RigBuilder().Does(Observe(1) with { Marks = true }, Observe(1), Observe(1) with { Marks = true })).ToIdle();
        List<int> lit = [];
        bench.OnScan += () =>
        {
            if (bench.Outputs.Marker)
                lit.Add(bench.Record.Step);
        };
        Assert.True(bench.Outputs.Marker);
        bench.ScanUntil(() => bench.Record.Finished);
        int scans = (int)(Configuration.MarkTime / bench.Configuration.ScanPeriod);
        Assert.Equal([(0, scans - 1), (2, scans)], lit.GroupBy(s => s).Select(g => (g.Key, g.Count())));
    }
}
