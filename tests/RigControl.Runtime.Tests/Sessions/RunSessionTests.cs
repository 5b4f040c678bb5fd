using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Sessions;

public class RunSessionTests
{
    [Fact]
    public void The_scripted_operator_brings_the_procedure_to_its_end()
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig { Repeat = 2 });

        Assert.Equal(RunOutcome.Completed, result.Outcome);
        Assert.Empty(result.Refusals);
        Assert.Null(result.Note);
        Assert.Null(result.Storage);
        Assert.Equal(2, record.Scans.Max(s => s.Repeat));
        Assert.True(record.Scans[^1] is { Finished: true, AtStandstill: true });
        Assert.Equal("the procedure is done", record.The(EventNames.Finished).Text);
        Assert.Equal((record.Scans.Count, record.Events.Count), record.Safe);
    }

    [Fact]
    public void A_stop_asked_for_before_anything_is_armed_ends_the_session_at_once_in_safe_stop()
    {
        using AssembledRig rig = new TestRig().Assemble();
        MemoryRecorder record = new();
        RunResult result = Run.Of(rig, record, before: s => s.Stop());

        Assert.Equal(RunOutcome.SafeStop, result.Outcome);
        Assert.DoesNotContain(record.Scans, s => s.State != RigState.SafeStop);
    }

    [Fact]
    public void A_stop_asked_for_while_holding_ends_at_standstill_and_asking_twice_changes_nothing()
    {
        using AssembledRig rig = new TestRig().Assemble();
        MemoryRecorder record = new();
        RunSession? running = null;
        MeddlingOperator stopper = new((in ScanRecord r, CommandInbox _) =>
        {
            if (r.State != RigState.Hold)
                return;
            running!.Stop();
            running.Stop();
        });
        RunResult result = Run.Of(rig, record, stopper, before: s => running = s);

        Assert.Equal(RunOutcome.SafeStop, result.Outcome);
        Assert.Single(record.Scans, s => s.State == RigState.Hold);
        Assert.True(record.Scans[^1].AtStandstill);
        Assert.Equal("stopped by the operator at the bench", record.The(EventNames.Trip).Text);
        Assert.Single(record.Events, e => e is { Name: EventNames.OperatorAct, Subject: "stop" });
    }

    [Fact]
    public void A_stop_between_the_last_step_and_standstill_ends_the_run_in_safe_stop()
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig(), new MeddlingOperator((in ScanRecord r, CommandInbox inbox) =>
        {
            if (r.Finished && r.State == RigState.Idle)
                inbox.Post(CommandKind.Stop, CommandSource.Bench);
        }));

        Assert.Equal(RunOutcome.SafeStop, result.Outcome);
        Assert.True(record.Scans[^1] is { State: RigState.SafeStop, AtStandstill: true });
    }

    [Fact]
    public void Questions_are_answered_recorded_with_their_resolution_and_come_out_the_same_again()
    {
        Question mass = new("mass", "mass on the scale", "g", 0, 500, 0.5, []);
        Question trial = new("rights-itself", "rights itself", "", 0, 1, 1, Question.Trial);
        TestRig rig = new()
        {
            Repeat = 2,
            Steps =
            [
                new Step { Kind = StepKind.Ask, Question = mass, Timeout = TimeSpan.FromMinutes(1) },
                new Step { Kind = StepKind.Trial, Question = trial, Timeout = TimeSpan.FromMinutes(1) },
            ],
        };
        (RunResult result, MemoryRecorder record) = Run.Of(rig);

        Assert.Equal(RunOutcome.Completed, result.Outcome);
        RigEvent[] answers = [.. record.Events.Where(e => e.Name == EventNames.Answer)];
        Assert.Equal(["mass: 250 g, after 0.0 s", "rights-itself: passed, after 0.0 s"], answers.Take(2).Select(a => a.Text));
        Assert.Equal(4, answers.Length);
        Assert.Equal((1, 250.0, "g", 0.5), (answers[0].Data["repeat"], answers[0].Data["value"], answers[0].Data["unit"], answers[0].Data["resolution"]));
        Assert.Contains(record.Events, e => e.Name == EventNames.StepEntered && e.Text == "step 1 of 2, ask, repeat 1 of 2: mass on the scale");
        Assert.DoesNotContain(record.Scans, s => s.Outputs.Power);
        using AssembledRig again = rig.Assemble();
        Assert.Equal((null, (long)record.Scans.Count), Run.Again(rig, again.Channels, record.Scans, record.Samples));
    }

    [Fact]
    public void A_refused_arm_gives_every_objection_at_once()
    {
        using AssembledRig rig = new TestRig
        {
            Interlocks = { ["belt"] = _ => ToyInterlock.ObjectsFrom(TimeSpan.Zero), ["broken"] = _ => new ToyInterlock { OnEvaluate = _ => throw new InvalidOperationException() } },
        }.Assemble(confirm: false);
        MemoryRecorder record = new();
        RunResult result = Run.Of(rig, record);

        Assert.Equal(RunOutcome.Refused, result.Outcome);
        Assert.Equal(["failsafe-confirmed", "belt", "broken"], result.Refusals.Select(r => r.Interlock));
        Assert.All(result.Refusals, r => Assert.NotEmpty(r.Reason));
        Assert.DoesNotContain(record.Scans, s => s.Outputs.Power);
    }

    [Fact]
    public void An_operator_who_leaves_without_starting_ends_the_session_refused_with_nothing_energised()
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig(), new LeavingOperator(40));

        Assert.Equal(RunOutcome.Refused, result.Outcome);
        Assert.Equal(40, record.Scans.Count);
        Assert.DoesNotContain(record.Scans, s => s.Outputs.Power);
    }

    [Fact]
    public void What_happened_before_the_first_scan_opens_the_record()
    {
        RigEvent opening = new(TimeSpan.Zero, 0, EventNames.FailsafeConfirmed, "", "confirmed by the operator", new Dictionary<string, object>());
        List<RigEvent> heard = [];
        using AssembledRig rig = new TestRig().Assemble();
        MemoryRecorder record = new();
        using RunSession session = new(rig, record, new LeavingOperator(5), Pace.Max, [opening], heard.Add);
        session.Run();

        Assert.Same(opening, record.Events[0]);
        Assert.Equal(record.Events, heard);
    }

    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void A_run_that_ends_at_rest_says_so_last()
    {
        (_, MemoryRecorder record) = Run.Of(new TestRig());
        Assert.Equal(("left-at-rest", "the rotor was left without power and at rest"), (record.Events[^1].Name, record.Events[^1].Text));
    }

    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void A_run_that_ends_without_a_proven_rest_does_not_say_so()
    {
        (_, MemoryRecorder record) = Run.Of(new TestRig(), new LeavingOperator(5));
        Assert.NotEmpty(record.Events);
        Assert.DoesNotContain(record.Events, e => e.Name == "left-at-rest");
    }

    [Fact]
    public void A_stop_pressed_at_the_bench_while_turning_trips_with_its_reason()
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig { Bench = { ["stop-pressed-at"] = 6.0 } });

        Assert.Equal(RunOutcome.SafeStop, result.Outcome);
        RigEvent trip = record.Events.First(e => e.Name == EventNames.Trip);
        Assert.Equal("stop-clear", trip.Subject);
        Assert.Equal("stop.clear", trip.Data["channel"]);
    }
}
