using RigControl.Documents.Tests.Support;
using RigControl.Model.Procedures;

namespace RigControl.Documents.Tests.Procedures;

/// <summary>What a procedure file says is what the rig is told.</summary>
public class ReadProcedureTests
{
    [Fact]
    public void The_head_of_a_procedure_is_read_as_written()
    {
        Procedure procedure = Read(Samples.Procedure);
        Assert.Equal("enclosed-spin-up", procedure.Name);
        Assert.Equal(3, procedure.Repeat);
        Assert.Equal(["lid-closed", "motor-temperature"], procedure.Requires);
        Assert.Equal(["spin-up-time", "steady-speed"], procedure.Figures);
        Assert.Equal([StepKind.Arm, StepKind.SpinUp, StepKind.Hold, StepKind.CoastDown, StepKind.Rest], procedure.Steps.Select(s => s.Kind));
    }

    [Fact]
    public void A_spin_up_rises_to_its_share_and_ends_when_steady()
    {
        Step step = Read(Samples.Procedure).Steps[1];
        Assert.Equal(0.6, step.Throttle);
        Assert.Equal(TimeSpan.FromSeconds(2), step.Ramp);
        Assert.Equal(TimeSpan.FromSeconds(8), step.Timeout);
        Assert.Null(step.For);
        Assert.Equal(new Condition("rotor.speed", ConditionKind.SteadyWithin, 0.01, true, TimeSpan.FromSeconds(0.5)), Assert.Single(step.Until));
        Assert.Equal(["torque-watch"], step.Interlocks);
    }

    [Fact]
    public void A_spin_up_may_raise_a_second_output_and_a_hold_keeps_both()
    {
        IReadOnlyList<Step> steps = Read(Samples.Procedure.Replace("ramp: 2 s", "ramp: 2 s\n      second: -20 %", StringComparison.Ordinal)).Steps;
        Assert.Equal([(0, 0), (0.6, -0.2), (0.6, -0.2), (0, 0), (0, 0)], steps.Select(s => (s.Throttle, s.SecondThrottle)));
    }

    [Fact]
    public void A_gate_lasts_its_time_and_takes_what_a_hold_takes()
    {
        Step step = Read("procedure: p\nrequires: []\nsteps: [{ arm: }, { gate: { for: 60 s, requires: [lid-closed], interlocks: [torque-watch] } }, { coast-down: { timeout: 9 s } }]").Steps[1];
        Assert.Equal((StepKind.Gate, TimeSpan.FromSeconds(60), TimeSpan.FromSeconds(61), 0), (step.Kind, step.For, step.Timeout, step.Throttle));
        Assert.Equal(["lid-closed"], step.Permissives);
        Assert.Equal(["torque-watch"], step.Interlocks);
    }

    [Fact]
    public void A_hold_keeps_the_level_of_the_spin_up_before_it_and_may_take_a_second_longer_than_its_time()
    {
        Step step = Read(Samples.Procedure).Steps[2];
        Assert.Equal(0.6, step.Throttle);
        Assert.Equal(TimeSpan.FromSeconds(5), step.For);
        Assert.Equal(TimeSpan.FromSeconds(6), step.Timeout);
    }

    [Fact]
    public void Steps_without_output_have_no_throttle() =>
        Assert.All(Read(Samples.Procedure).Steps.Where(s => s.Kind is StepKind.Arm or StepKind.CoastDown or StepKind.Rest), s => Assert.Equal(0, s.Throttle));

    [Fact]
    public void An_arm_step_asks_its_permissives_and_waits_ten_seconds_unless_told()
    {
        Assert.Equal(["lid-closed"], Read(Samples.Procedure).Steps[0].Permissives);
        Assert.Equal(TimeSpan.FromSeconds(10), Steps("arm:")[0].Timeout);
        Assert.Equal(TimeSpan.FromSeconds(10), Steps("arm: {}")[0].Timeout);
        Assert.Equal(TimeSpan.FromSeconds(30), Steps("arm: { within: 30 s }")[0].Timeout);
    }

    [Fact]
    public void A_coast_down_ends_below_sixty_turns_a_minute_unless_told() =>
        Assert.Equal(new("rotor.speed", ConditionKind.Below, 60, false, TimeSpan.Zero), Assert.Single(Steps("arm:")[^1].Until));

    [Fact]
    public void A_procedure_runs_once_and_wants_no_figure_unless_told()
    {
        Procedure procedure = Read("procedure: p\nrequires: []\nsteps: [{ rest: { for: 2 s } }]");
        Assert.Equal(1, procedure.Repeat);
        Assert.Empty(procedure.Figures);
        Assert.Empty(procedure.Requires);
    }

    [Fact]
    public void A_rest_may_end_by_time_or_by_what_comes_first()
    {
        Step step = Read("procedure: p\nrequires: []\nsteps: [{ rest: { for: 2 s, until: { channel: mass, above: 1 kg } } }]").Steps[0];
        Assert.Equal((TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(3)), (step.For, step.Timeout));
        Assert.Equal(1000, Assert.Single(step.Until).Value);
    }

    [Fact]
    public void A_two_way_controller_may_be_driven_backwards() =>
        Assert.Equal(-0.25, Read(Samples.Procedure.Replace("60 %", "-25 %")).Steps[1].Throttle);

    [Theory]
    [InlineData("rotor.speed", "above: 50 Hz", 3000)]
    [InlineData("rotor.speed", "below: 6 deg/s", 1)]
    [InlineData("motor.temperature", "above: 140 degF", 60)]
    [InlineData("motor.temperature", "below: 313.15 K", 40)]
    [InlineData("battery.voltage", "below: 11100 mV", 11.1)]
    [InlineData("output.pulse", "above: 1.5 ms", 1500)]
    [InlineData("output.throttle", "above: 50 %", 50)]
    [InlineData("scan.lateness", "above: 1500 us", 1.5)]
    [InlineData("enclosure.lid", "above: 0.5 1", 0.5)]
    [InlineData("bench.pull", "above: 1 kgf", 9.80665)]
    [InlineData("arm.torque", "above: 1000 mN.m", 1)]
    [InlineData("cell.mass", "below: 0.18 kg", 180)]
    [InlineData("wheel.speed", "above: 36 km/h", 10)]
    [InlineData("gap", "below: 2 ms", 2000)]
    public void A_threshold_is_held_in_the_unit_of_its_channel(string channel, string asked, double value) =>
        Assert.Equal(value, Until($"{{ channel: {channel}, {asked} }}").Value, 1e-9);

    [Theory]
    [InlineData("rotor.speed", "1 %", 0.01, true)]
    [InlineData("rotor.speed", "1 Hz", 60, false)]
    [InlineData("motor.temperature", "2 K", 2, false)]
    [InlineData("motor.temperature", "9 degF", 5, false)]
    [InlineData("battery.voltage", "100 mV", 0.1, false)]
    [InlineData("output.throttle", "2 %", 0.02, true)]
    public void A_band_is_a_difference_or_a_share(string channel, string band, double value, bool relative)
    {
        Condition condition = Until($"{{ channel: {channel}, steady-within: {band}, for: 1 s }}");
        Assert.Equal(value, condition.Value, 1e-9);
        Assert.Equal(relative, condition.Relative);
    }

    [Fact]
    public void A_reading_is_asked_for_in_the_unit_of_its_resolution()
    {
        Step step = Read("procedure: p\nrequires: []\nsteps: [{ ask: { name: mass, question: mass on the scale, resolution: 1 g, lowest: 0 g, highest: 5 kg } }]").Steps[0];
        Assert.Equal((StepKind.Ask, TimeSpan.FromHours(1)), (step.Kind, step.Timeout));
        Question question = step.Question!;
        Assert.Equal(("mass", "mass on the scale", "g", 0, 5000, 1), (question.Name, question.Text, question.Unit, question.Lowest, question.Highest, question.Resolution));
        Assert.False(question.IsChoice);
    }

    [Fact]
    public void A_trial_is_a_choice_between_passed_and_failed()
    {
        Step step = Read("procedure: p\nrequires: []\nsteps: [{ trial: { name: rights-itself, question: rights itself within 10 s, within: 60 s } }]").Steps[0];
        Assert.Equal((StepKind.Trial, TimeSpan.FromSeconds(60)), (step.Kind, step.Timeout));
        Assert.Equal(["passed", "failed"], step.Question!.Choices);
    }

    [Fact]
    public void A_sweep_is_a_spin_up_and_a_hold_at_each_level_and_keeps_its_place_in_the_file()
    {
        IReadOnlyList<Step> steps = Read("""
            procedure: p
            requires: []
            steps:
              - arm:
              - sweep: { throttle: [20 %, 40 %, 30 %], ramp: 1 s, hold: 2 s, timeout: 5 s, interlocks: [belt], mark: yes }
              - coast-down: { timeout: 60 s }
            """).Steps;
        Assert.Equal([StepKind.Arm, .. Enumerable.Repeat(new[] { StepKind.SpinUp, StepKind.Hold }, 3).SelectMany(k => k), StepKind.CoastDown], steps.Select(s => s.Kind));
        Assert.Equal([0.2, 0.2, 0.4, 0.4, 0.3, 0.3], steps.Skip(1).Take(6).Select(s => s.Throttle));
        Assert.Equal([0, 1, 1, 1, 1, 1, 1, 2], steps.Select(s => s.Item));
        Assert.All(steps.Skip(1).Take(6), s => Assert.True(s is { Marks: true, Written: "sweep", Interlocks: ["belt"] }));
    }

    [Fact]
    public void A_sweep_counts_as_two_steps_a_level()
    {
        string sweep = $"sweep: {{ throttle: [{string.Join(", ", Enumerable.Repeat("20 %", 30))}], ramp: 1 s, hold: 2 s, timeout: 5 s }}";
        string text = $"procedure: p\nrequires: []\nsteps: [{{ arm: }}, {{ {sweep} }}, {{ {sweep} }}, {{ {sweep} }}, {{ coast-down: {{ timeout: 9 s }} }}]";
        Assert.Equal("f:3:8: with two steps for each level of a sweep, the procedure has 182 steps; keep at most 128",
            Assert.Single(DocumentReader.ReadProcedure(text, "f").Problems).ToString());
    }

    [Fact]
    public void What_figures_are_asked_at_is_read_in_one_unit_each()
    {
        IReadOnlyDictionary<string, double> stated = DocumentReader.ReadFiguresAt(
            "procedure: p\nrequires: []\nsteps: [{ rest: { for: 1 s } }]\nfigures-at: { after: 2000 ms, to-speed: 50 Hz, match: 180 s, duty: 60 %, ambient: 77 degF, settled-within: 5 % }");
        Assert.Equal((2.0, 3000.0, 180.0, 60.0, 5.0), (stated["after"], Math.Round(stated["to-speed"], 6), stated["match"], stated["duty"], stated["settled-within"]));
        Assert.Equal(25, stated["ambient"], 1e-9);
    }

    [Theory]
    [InlineData("")]
    [InlineData("hello")]
    [InlineData("procedure: p\nrequires: []\nsteps: [{ rest: { for: 1 s } }]")]
    [InlineData("procedure: p\nfigures-at: { after: soon }")]
    public void Where_nothing_can_be_read_nothing_is_stated(string text) => Assert.Empty(DocumentReader.ReadFiguresAt(text));

    [Fact]
    public void Any_of_several_conditions_may_end_a_step() =>
        Assert.Equal(2, Read("procedure: p\nrequires: []\nsteps: [{ rest: { until: [{ channel: a, above: 1 V }, { channel: b, below: 2 A }], timeout: 1 s } }]").Steps[0].Until.Count);

    [Fact]
    public void Every_problem_is_reported_at_once_and_in_order()
    {
        string text = Samples.Procedure.Replace("repeat: 3", "repeat: 0").Replace("60 %", "60").Replace("for: 5 s", "for: 5 V").Replace("steady-speed", "steadyspeed");
        Assert.Equal([2, 7, 12, 15], DocumentReader.ReadProcedure(text, "f").Problems.Select(p => p.Line));
    }

    private static Condition Until(string condition) =>
        Assert.Single(Read($"procedure: p\nrequires: []\nsteps: [{{ rest: {{ until: {condition}, timeout: 60 s }} }}]").Steps[0].Until);

    private static IReadOnlyList<Step> Steps(string arm) => Read($$"""
        procedure: p
        requires: []
        steps:
          - {{arm}}
          - spin-up: { throttle: 10 %, ramp: 0 s, until: { channel: rotor.speed, above: 100 rpm }, timeout: 5 s }
          - coast-down: { timeout: 9 s }
        """).Steps;

    private static Procedure Read(string text)
    {
        Reading<Procedure> reading = DocumentReader.ReadProcedure(text, "f");
        Assert.Empty(reading.Problems);
        return reading.Value!;
    }
}
