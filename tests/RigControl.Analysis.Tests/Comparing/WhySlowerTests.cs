using RigControl.Analysis.Comparing;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Tests.Comparing;

public class WhySlowerTests
{
    private const double Speed = 800;

    private static readonly SpinUpCause Base = new(
        new("supply", 11, 0.02), new("Kt", 0.0095, 2e-5), new("resistance", 0.1, 0.001), 40,
        (new("c0", 0.012, 1e-4), new("c1", 1e-6, 1e-7), new("c2", 1e-8, 1e-9)), new("inertia", 2e-4, 1e-6));

    /// <summary>Source: derived; only one cause differs, so that it alone explains the difference.</summary>
    [Theory]
    [InlineData("supply")]
    [InlineData("torque")]
    [InlineData("drag")]
    [InlineData("inertia")]
    public void A_single_cause_explains_the_whole_difference(string cause)
    {
        SpinUpCause other = cause switch
        {
            "supply" => Base with { Supply = Base.Supply with { Value = 9.8 } },
            "torque" => Base with { Resistance = Base.Resistance with { Value = 0.12 }, CurrentLimit = 35 },
            "drag" => Base with { Drag = (Base.Drag.Constant with { Value = 0.03 }, Base.Drag.Linear, Base.Drag.Quadratic) },
            _ => Base with { Inertia = Base.Inertia with { Value = 2.6e-4 } },
        };
        double difference = other.TimeTo(Speed) - Base.TimeTo(Speed);
        Assert.True(difference > 0.02, $"{cause} hardly matters: {difference} s");
        WhySlower why = Split(other);
        Dictionary<string, Measured> parts = new() { ["supply"] = why.Supply, ["torque"] = why.Torque, ["drag"] = why.Drag, ["inertia"] = why.Inertia };
        Near.Relative(difference, parts[cause].Value, 1e-9, cause);
        Assert.All(parts.Where(p => p.Key != cause), p => Near.Absolute(0, p.Value.Value, 1e-9, p.Key));
        Near.Absolute(0, why.Unexplained.Value, 1e-9, "unexplained");
        Assert.True(why.Unexplained.Uncertainty > 0);
    }

    [Fact]
    public void Several_causes_add_up_with_little_left_over()
    {
        SpinUpCause other = Base with { Supply = Base.Supply with { Value = 10.5 }, Inertia = Base.Inertia with { Value = 2.2e-4 }, Drag = (Base.Drag.Constant with { Value = 0.018 }, Base.Drag.Linear, Base.Drag.Quadratic) };
        double difference = other.TimeTo(Speed) - Base.TimeTo(Speed);
        WhySlower why = Split(other);
        Assert.True(Math.Abs(why.Unexplained.Value) < 0.05 * difference, $"{why.Unexplained.Value} of {difference} s is left");
        Assert.True(why.Inertia.Value > 0 && why.Supply.Value > 0 && why.Drag.Value > 0);
    }

    [Fact]
    public void What_no_cause_explains_is_left_over()
    {
        WhySlower why = WhySlower.Of(Base, new Measured(Base.TimeTo(Speed), 0.002), Base, new Measured(Base.TimeTo(Speed) + 0.3, 0.002), Speed);
        Near.Absolute(0.3, why.Unexplained.Value, 1e-9);
        Assert.True(0.3 > 3 * why.Unexplained.Uncertainty, $"{why.Unexplained.Uncertainty} s");
    }

    [Fact]
    public void A_speed_that_a_run_never_reaches_gives_a_reason() =>
        Assert.Throws<NoFigureException>(() => WhySlower.Of(Base, new Measured(1, 0.1), Base with { Supply = Base.Supply with { Value = 5 } }, new Measured(2, 0.1), Speed));

    /// <summary>Source: derived; without drag and limit a first-order rise under a ramp follows free/ramp · (t − T (1 − exp(−t/T))).</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(5)]
    public void A_demand_that_rises_evenly_is_followed_as_the_closed_form_says(double ramp)
    {
        SpinUpCause cause = Base with { CurrentLimit = double.PositiveInfinity, Ramp = ramp, Drag = (new("c0", 0, 0), new("c1", 0, 0), new("c2", 0, 0)) };
        double timeConstant = 2e-4 * 0.1 / (0.0095 * 0.0095), free = 11 / 0.0095;
        double Speed(double t) => free / ramp * (t - timeConstant * (1 - Math.Exp(-t / timeConstant)));
        foreach (double share in new[] { 0.2, 0.6, 0.95 })
            Near.Relative(share * ramp, cause.TimeTo(Speed(share * ramp)), 1e-3, $"{share} of a ramp of {ramp} s");
        double end = Speed(ramp), later = 0.7 * timeConstant;
        Near.Relative(ramp + later, cause.TimeTo(free - (free - end) * Math.Exp(-later / timeConstant)), 1e-3, "after the ramp");
    }

    [Fact]
    public void A_short_ramp_is_nearly_a_step_and_a_rotor_that_drag_holds_waits_for_the_demand()
    {
        Near.Relative(Base.TimeTo(Speed), (Base with { Ramp = 1e-4 }).TimeTo(Speed), 1e-3);
        SpinUpCause held = Base with { Ramp = 10, Drag = (Base.Drag.Constant with { Value = 0.1 }, Base.Drag.Linear, Base.Drag.Quadratic) };
        // The torque at standstill passes the drag at 0.1 · 0.1 / (0.0095 · 11) of the demand.
        Assert.True(held.TimeTo(1) > 10 * 0.1 * 0.1 / (0.0095 * 11), $"{held.TimeTo(1)} s");
    }

    private static WhySlower Split(SpinUpCause other) =>
        WhySlower.Of(Base, new Measured(Base.TimeTo(Speed), 0.002), other, new Measured(other.TimeTo(Speed), 0.002), Speed);
}
