using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Physics;

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

    [Theory]
    [InlineData(0.0, 0.02, 0.06)]
    [InlineData(0.1, 0.5, 0.7)]
    public void A_room_that_scatters_is_known_by_all_samples_and_one_that_warms_by_no_more_than_that(double perSecond, double low, double high)
    {
        SplitMix chance = new(61);
        Trace trace = new MadeTrace().Channel("ambient.temperature", "degC", t => 20 + perSecond * (t - 10) + 0.3 * chance.Bell(), step: 0.1).Repeat(0, 5, 10, 20).Build();
        Input room = HeatFigures.Ambient(new FigureContext(new FigureInput(trace, null, 60), trace.Segments[0]), 0, 20)!;
        Near.Absolute(20, room.Value, 3 * room.Uncertainty);
        Assert.InRange(room.Uncertainty, low, high);
    }

    [Fact]
    public void A_part_that_only_cools_has_risen_by_nothing()
    {
        Figure rise = new MadeTrace().Channel("motor.temperature", "degC", t => 60 - t).Repeat(0, 5, 10, 20).Figure("temperature-rise");
        Near.Absolute(0, rise.Value!.Value, 1e-9);
    }
}
