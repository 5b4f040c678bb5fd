using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Comparing;

/// <summary>What a spin-up depends on, as two runs of one article may differ in it.</summary>
/// <param name="Supply">Pack under load times duty, V.</param>
/// <param name="TorqueConstant">Kt, N.m/A.</param>
/// <param name="Resistance">From the pack to the winding, ohm.</param>
/// <param name="CurrentLimit">Of the winding, A; infinity for none.</param>
/// <param name="Drag">Constant, linear and quadratic term, N.m, N.m.s and N.m.s2.</param>
/// <param name="Inertia">kg.m2.</param>
public sealed record SpinUpCause(Input Supply, Input TorqueConstant, Input Resistance, double CurrentLimit, (Input Constant, Input Linear, Input Quadratic) Drag, Input Inertia)
{
    private const int Steps = 2000;

    /// <summary>Time, s, from a step of the demand to a speed in rad/s; infinity where it is never reached.</summary>
    internal double TimeTo(double speed)
    {
        (double kt, double inertia) = (TorqueConstant.Value, Inertia.Value);
        double timeConstant = inertia * Resistance.Value / (kt * kt), free = Supply.Value / kt;
        CoastDown drag = new(0, Drag.Constant.Value / inertia, Drag.Linear.Value / inertia, Drag.Quadratic.Value / inertia);
        double limit = kt * CurrentLimit / inertia;
        double w = 0, time = 0;
        // In steps of speed, so that the end is met exactly.
        double step = speed / Steps;
        for (int i = 0; i < Steps; i++)
        {
            double middle = w + step / 2;
            double acceleration = Math.Min(limit, (free - middle) / timeConstant) - drag.Slowing(middle);
            if (acceleration <= 0)
                return double.PositiveInfinity;
            time += step / acceleration;
            w += step;
        }

        return time;
    }
}
