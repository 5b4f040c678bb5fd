using RigControl.Documents.Tests.Support;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Documents.Tests;

/// <summary>A procedure that does not fit rig, article or channels is told so in the procedure file.</summary>
public class CrossCheckTests
{
    private static readonly Reading<Procedure> Procedure = DocumentReader.ReadProcedure(Samples.Procedure, "spin.yaml");

    [Fact]
    public void Every_interlock_that_the_rig_has_not_is_named_at_each_place() =>
        Assert.Equal(
            [
                "spin.yaml:3:12: the rig workshop-box has no interlock `lid-closed`; write `lid-close`",
                "spin.yaml:5:37: the rig workshop-box has no interlock `lid-closed`; write `lid-close`",
                "spin.yaml:11:20: the rig workshop-box has no interlock `torque-watch`; write `lid-close` or `motor-temperature`",
            ],
            Check(Rig(("lid-close", InterlockScope.EveryStep), ("motor-temperature", InterlockScope.EveryStep))));

    [Fact]
    public void A_rig_with_every_interlock_is_accepted() =>
        Assert.Empty(Check(Rig(
            ("lid-closed", InterlockScope.EveryStep), ("motor-temperature", InterlockScope.EveryStep), ("torque-watch", InterlockScope.NamedSteps))));

    [Fact]
    public void An_interlock_that_is_required_but_watches_no_step_is_reported() =>
        Assert.Equal(
            ["spin.yaml:3:24: `motor-temperature` counts only in steps that name it, and none does; write `interlocks: [motor-temperature]` in the steps it should watch"],
            Check(Rig(("lid-closed", InterlockScope.EveryStep), ("motor-temperature", InterlockScope.NamedSteps), ("torque-watch", InterlockScope.NamedSteps))));

    [Theory]
    [InlineData("-60 %", "one-way", "1000 us", "spin.yaml:7:17: the controller of disc-180 is one-way and cannot be driven backwards; write a level above `0 %`")]
    [InlineData("-60 %", "servo", "1000 us", "spin.yaml:7:17: the controller of disc-180 is a servo that stops at its end and goes one way only; write a level above `0 %`")]
    [InlineData("-60 %", "servo", "1500 us", null)]
    [InlineData("-60 %", "two-way", "1500 us", null)]
    [InlineData("60 %", "one-way", "1000 us", null)]
    public void Only_what_has_its_stop_between_its_ends_goes_to_the_other_side_of_it(string throttle, string mode, string stop, string? problem)
    {
        var procedure = DocumentReader.ReadProcedure(Samples.Procedure.Replace("60 %", throttle), "spin.yaml");
        var article = DocumentReader.ReadArticle(Samples.Article.Replace("one-way", mode).Replace("stop: 1000 us", $"stop: {stop}"), "a");
        Assert.Equal(problem is null ? [] : [problem], CrossCheck.Procedure(procedure.Value!, procedure.Places, article.Value!).Select(p => p.ToString()));
    }

    [Theory]
    [InlineData("20 %", null, "spin.yaml:8:15: disc-180 has no second controller; describe it under `second-controller:` in the article, or leave `second` out")]
    [InlineData("20 %", "one-way", null)]
    [InlineData("-20 %", "one-way", "spin.yaml:8:15: the second controller of disc-180 is one-way and cannot be driven backwards; write a level above `0 %`")]
    [InlineData("-20 %", "two-way", null)]
    public void A_second_output_needs_a_controller_that_can_do_it(string second, string? mode, string? problem)
    {
        string controller = Samples.Article[Samples.Article.IndexOf("controller:", StringComparison.Ordinal)..Samples.Article.IndexOf("rotor:", StringComparison.Ordinal)];
        string added = mode is null ? "" : "second-" + controller.Replace("one-way", mode, StringComparison.Ordinal).Replace("stop: 1000 us", mode == "two-way" ? "stop: 1500 us" : "stop: 1000 us", StringComparison.Ordinal);
        var procedure = DocumentReader.ReadProcedure(Samples.Procedure.Replace("ramp: 2 s", $"second: {second}\n      ramp: 2 s", StringComparison.Ordinal), "spin.yaml");
        var article = DocumentReader.ReadArticle(Samples.Article.Replace(controller, controller + added, StringComparison.Ordinal), "a");
        Assert.Empty(article.Problems);
        Assert.Equal(problem is null ? [] : [problem], CrossCheck.Procedure(procedure.Value!, procedure.Places, article.Value!).Select(p => p.ToString()));
    }

    [Fact]
    public void Channels_in_their_usual_units_are_accepted() =>
        Assert.Empty(CrossCheck.Procedure(Procedure.Value!, Procedure.Places, Channels(("rotor.speed", "rpm"), ("motor.temperature", "degC"))));

    [Fact]
    public void A_channel_that_no_device_supplies_is_named_at_its_place() =>
        Assert.Equal(["spin.yaml:14:31: no device supplies the channel motor.temperature; write `motor.temperatur`"],
            CrossCheck.Procedure(Procedure.Value!, Procedure.Places, Channels(("rotor.speed", "rpm"), ("motor.temperatur", "degC"))).Select(p => p.ToString()));

    [Fact]
    public void A_threshold_in_another_unit_than_its_channel_is_never_compared() =>
        Assert.Equal(["spin.yaml:13:57: rotor.speed is in rad/s, but the condition is in rpm; write the value in rpm, rad/s, deg/s or Hz"],
            CrossCheck.Procedure(Procedure.Value!, Procedure.Places, Channels(("rotor.speed", "rad/s"), ("motor.temperature", "degC"))).Select(p => p.ToString()));

    [Theory]
    [InlineData("above: 1000 rpm", "rotor.speed reads from 0 to 1000 rpm and is never above 1000")]
    [InlineData("above: 999 rpm", null)]
    [InlineData("below: 1 rpm", null)]
    public void A_threshold_that_the_channel_can_never_pass_is_named_before_anything_turns(string threshold, string? what)
    {
        var procedure = DocumentReader.ReadProcedure($$"""
            procedure: p
            requires: []
            steps:
              - rest: { until: { channel: rotor.speed, {{threshold}} }, timeout: 5 s }
            """, "p");
        Assert.Equal(what is null ? [] : [what], CrossCheck.Procedure(procedure.Value!, procedure.Places, Channels(("rotor.speed", "rpm"))).Select(p => p.What));
    }

    [Fact]
    public void The_default_end_of_a_coast_down_is_checked_as_well()
    {
        var procedure = DocumentReader.ReadProcedure(Samples.Procedure.Replace("until: { channel: rotor.speed, below: 60 rpm }, ", ""), "spin.yaml");
        Assert.Equal("rotor.speed is in Hz, but the condition is in rpm",
            Assert.Single(CrossCheck.Procedure(procedure.Value!, procedure.Places, Channels(("rotor.speed", "Hz"), ("motor.temperature", "degC")))).What);
    }

    [Fact]
    public void Conditions_in_a_list_are_each_found_at_their_place()
    {
        var procedure = DocumentReader.ReadProcedure("""
            procedure: p
            requires: []
            steps:
              - rest:
                  until:
                    - { channel: a, above: 1 V }
                    - { channel: b, above: 1 kg }
                  timeout: 5 s
            """, "p");
        Assert.Equal(["p:6:22: no device supplies the channel a; write `b`", "p:7:32: b is in V, but the condition is in g; write the value in V or mV"],
            CrossCheck.Procedure(procedure.Value!, procedure.Places, Channels(("b", "V"))).Select(p => p.ToString()));
    }

    private static IEnumerable<string> Check(RigDefinition rig) => CrossCheck.Procedure(Procedure.Value!, Procedure.Places, rig).Select(p => p.ToString());

    private static RigDefinition Rig(params (string Id, InterlockScope Scope)[] interlocks) => new()
    {
        Name = "workshop-box",
        ScanPeriod = TimeSpan.FromMilliseconds(5),
        Devices = [],
        Interlocks = [.. interlocks.Select(i => new InterlockDefinition(i.Id, i.Id, new Dictionary<string, object>(), null, null, i.Scope))],
        StandstillSpeed = 60,
        StandstillTime = TimeSpan.FromSeconds(1),
    };

    private static Channel[] Channels(params (string Name, string Unit)[] channels) =>
        [.. channels.Select((c, i) => new Channel(i, c.Name, 0, new ChannelDeclaration
        {
            Name = c.Name, Unit = c.Unit, Minimum = 0, Maximum = 1000, Period = TimeSpan.FromSeconds(1), MaximumAge = TimeSpan.FromSeconds(1),
        }))];
}
