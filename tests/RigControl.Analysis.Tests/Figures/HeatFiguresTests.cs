using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Analysis.Tests.Figures;

public class HeatFiguresTests
{
    [Fact]
    public void Every_temperature_channel_has_its_rise()
    {
        IReadOnlyList<Figure> rises = new MadeTrace()
            .Channel("motor.temperature", "degC", t => 20 + 2 * t)
            .Channel("battery.temperature", "degC", t => 25 + 0.5 * t)
            .Channel("rotor.speed", "rpm", t => 100 * t)
            .Repeat(0, 5, 10, 20).Figures("temperature-rise");
        Assert.Equal([40, 10], rises.Select(f => f.Value!.Value), (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.All(rises, f => Assert.Equal("K", f.Unit));
    }

    [Theory]
    [InlineData(2, null)]
    [InlineData(5, "motor.temperature was 70 degC at its hottest")]
    public void A_part_too_hot_for_a_mount_or_a_hand_is_named_with_its_rise(double perSecond, string? expected)
    {
        Figure rise = new MadeTrace().Channel("motor.temperature", "degC", t => 20 + perSecond * Math.Min(t, 10)).Repeat(0, 5, 10, 20).Figure("temperature-rise");
        Assert.Equal(expected, rise.Note?[..expected!.Length]);
    }

    [Fact]
    public void A_part_that_only_cools_has_risen_by_nothing()
    {
        Figure rise = new MadeTrace().Channel("motor.temperature", "degC", t => 60 - t).Repeat(0, 5, 10, 20).Figure("temperature-rise");
        Near.Absolute(0, rise.Value!.Value, 1e-9);
    }
}
