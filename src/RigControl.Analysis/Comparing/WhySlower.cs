using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Comparing;

/// <summary>
/// The difference between the spin-up times of two runs, split into what each cause explains. A cause's part is the mean of what it alone
/// changes in the first run and of what it alone undoes in the second, so that the order of the causes does not matter.
/// </summary>
/// <param name="Supply">s; positive where it made the second run slower.</param>
/// <param name="Torque">Kt, resistance and current limit, s.</param>
/// <param name="Unexplained">What the causes do not add up to, s.</param>
public sealed record WhySlower(Measured Supply, Measured Torque, Measured Drag, Measured Inertia, Measured Unexplained)
{
    /// <summary>Splits the difference.</summary>
    /// <param name="first">Causes of the first run, with what each is known to.</param>
    /// <param name="firstTime">As measured, from a step of the demand to <paramref name="speed"/>, s.</param>
    /// <param name="speed">rad/s that both reach.</param>
    /// <exception cref="NoFigureException">By its causes one of the runs never reaches the speed.</exception>
    public static WhySlower Of(SpinUpCause first, Measured firstTime, SpinUpCause second, Measured secondTime, double speed)
    {
        if (!double.IsFinite(first.TimeTo(speed)) || !double.IsFinite(second.TimeTo(speed)))
            throw new NoFigureException("by what is known of it a run never reaches that speed");
        Input[] inputs = [.. Inputs(first), .. Inputs(second)];
        Measured Part(Func<SpinUpCause, SpinUpCause, SpinUpCause> take) => Propagation.ByLaw(
            x =>
            {
                SpinUpCause a = With(first, x[..7]), b = With(second, x[7..]);
                return 0.5 * (take(a, b).TimeTo(speed) - a.TimeTo(speed) + b.TimeTo(speed) - take(b, a).TimeTo(speed));
            },
            inputs);
        Measured supply = Part((to, from) => to with { Supply = from.Supply });
        Measured torque = Part((to, from) => to with { TorqueConstant = from.TorqueConstant, Resistance = from.Resistance, CurrentLimit = from.CurrentLimit });
        Measured drag = Part((to, from) => to with { Drag = from.Drag });
        Measured inertia = Part((to, from) => to with { Inertia = from.Inertia });
        double left = secondTime.Value - firstTime.Value - supply.Value - torque.Value - drag.Value - inertia.Value;
        Measured unexplained = Measured.Of(left, secondTime.As("second time"), firstTime.As("first time"), supply.As("supply"), torque.As("torque"), drag.As("drag"), inertia.As("inertia"));
        return new WhySlower(supply, torque, drag, inertia, unexplained);
    }

    private static Input[] Inputs(SpinUpCause c) => [c.Supply, c.TorqueConstant, c.Resistance, c.Drag.Constant, c.Drag.Linear, c.Drag.Quadratic, c.Inertia];

    private static SpinUpCause With(SpinUpCause c, ReadOnlySpan<double> x) => c with
    {
        Supply = c.Supply with { Value = x[0] }, TorqueConstant = c.TorqueConstant with { Value = x[1] }, Resistance = c.Resistance with { Value = x[2] },
        Drag = (c.Drag.Constant with { Value = x[3] }, c.Drag.Linear with { Value = x[4] }, c.Drag.Quadratic with { Value = x[5] }),
        Inertia = c.Inertia with { Value = x[6] },
    };
}
