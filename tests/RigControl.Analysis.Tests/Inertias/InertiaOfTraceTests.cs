using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Inertias;

public class InertiaOfTraceTests
{
    private const double Inertia = 2e-4, Added = 1e-4, Level = 900;

    /// <summary>Source: derived; the same drag on another inertia.</summary>
    [Theory]
    [InlineData(Added)]
    [InlineData(2 * Added)]
    public void Two_repeats_the_second_heavier_give_the_rotors_own_inertia(double added)
    {
        Figure figure = Analysed(Trace([Inertia, Inertia + added]), added);
        Assert.Equal("kg.m2", figure.Unit);
        Near.Relative(Inertia, figure.Value!.Value, 0.03);
        Assert.InRange(Inertia, figure.Interval95!.Value.Low, figure.Interval95.Value.High);
        Assert.Equal(["coast-down alone", "coast-down with what is added"], figure.Budget.Select(b => b.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Without_an_added_inertia_nothing_is_said_of_it() =>
        Assert.DoesNotContain(TraceAnalysis.Of(Trace([Inertia, Inertia]), null, 60, null).Figures, f => f.Name == "inertia");

    [Fact]
    public void Another_number_of_repeats_is_told_as_the_reason()
    {
        Figure figure = Analysed(Trace([Inertia]), Added);
        Assert.Null(figure.Value);
        Assert.Equal("it takes two repeats, the first without and the second with the added inertia; the trace has 1", figure.Note);
    }

    [Fact]
    public void A_rotor_that_was_as_light_as_before_says_to_add_more() =>
        Assert.Contains("add more", Analysed(Trace([Inertia, Inertia]), Added).Note, StringComparison.Ordinal);

    [Fact]
    public void A_controller_that_brakes_gives_no_inertia()
    {
        Article braking = Articles.Disc with
        {
            Controller = new ControllerProfile
            {
                Mode = RigControl.Model.Rig.ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
                BrakesAtStop = true, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(1),
            },
        };
        Figure figure = TraceAnalysis.Of(Trace([Inertia, Inertia + Added]), braking, 60, null, added: Ring(Added)).Figures.Single(f => f.Name == "inertia");
        Assert.Equal("the controller brakes at stop", figure.Note);
    }

    private static Figure Analysed(Dictionary<string, Series> channels, double added) =>
        TraceAnalysis.Of(channels, null, 60, null, added: Ring(added)).Figures.Single(f => f.Name == "inertia");

    private static Input Ring(double inertia) => new("added inertia", inertia, 0);

    // Rise, hold and coast-down for every inertia, with a reader whose every reading is fresh.
    private static Dictionary<string, Series> Trace(double[] inertias)
    {
        SplitMix chance = new(17);
        List<double> times = [], speeds = [], demands = [];
        void Add(double speed, double demand)
        {
            times.Add(0.01 * times.Count);
            speeds.Add(speed > 0 ? 30 / Math.PI * speed + 3 * chance.Bell() : 0);
            demands.Add(demand);
        }

        foreach (double inertia in inertias)
        {
            for (int i = 0; i < 100; i++)
                Add(0, 0);
            for (int i = 0; i < 400; i++)
                Add(Level * (1 - Math.Exp(-i / 30.0)), 60);
            CoastDown fall = new(Level, 0.01 / inertia, 2e-6 / inertia, 1e-8 / inertia);
            for (double t = 0; t < fall.TimeTo(0) + 1; t += 0.01)
                Add(fall.Speed(t), 0);
        }

        return new Dictionary<string, Series>
        {
            ["rotor.speed"] = new("rpm", 0, [.. times], [.. speeds]), ["output.throttle"] = new("%", 0, [.. times], [.. demands]),
        };
    }
}
