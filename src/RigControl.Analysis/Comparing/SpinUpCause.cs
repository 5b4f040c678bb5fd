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
    private const int RampSteps = 1000;

    /// <summary>Time in which the demand rises evenly from stop to its level, s; 0 for a step.</summary>
    public double Ramp { get; init; }

    // Per inertia, rad/s2 and 1/s.
    private CoastDown Slowing => new(0, Drag.Constant.Value / Inertia.Value, Drag.Linear.Value / Inertia.Value, Drag.Quadratic.Value / Inertia.Value);

    private double TimeConstant => Inertia.Value * Resistance.Value / (TorqueConstant.Value * TorqueConstant.Value);

    private double Free => Supply.Value / TorqueConstant.Value;

    private double Limit => TorqueConstant.Value * CurrentLimit / Inertia.Value;

    /// <summary>Time, s, from the first demand to a speed in rad/s; infinity where it is never reached.</summary>
    internal double TimeTo(double speed)
    {
        (double reached, double? within) = AlongRamp(speed);
        return within ?? Ramp + AtLevel(reached, speed);
    }

    // Speed at the end of the ramp, or the time at which the speed was reached within it.
    private (double Speed, double? Within) AlongRamp(double speed)
    {
        double w = 0, dt = Ramp / RampSteps;
        CoastDown drag = Slowing;
        (double free, double timeConstant, double limit) = (Free, TimeConstant, Limit);
        for (int i = 0; i < RampSteps && Ramp > 0; i++)
        {
            double share = (i + 0.5) / RampSteps;
            double before = w;
            // The middle of the step is guessed from its beginning, so that coarse steps do.
            double middle = Math.Max(0, w + dt / 2 * Acceleration(w, share));
            w = Math.Max(0, w + dt * Acceleration(middle, share));
            if (w >= speed)
                return (w, (i + (speed - before) / (w - before)) * dt);
        }

        return (w, null);

        // A controller does not brake what is too fast, and drag does not push what stands.
        double Acceleration(double at, double share) =>
            Math.Min(limit, Math.Max(0, (share * free - at) / timeConstant)) - (at > 0 || share * free / timeConstant > drag.Constant ? drag.Slowing(at) : 0);
    }

    private double AtLevel(double from, double speed)
    {
        CoastDown drag = Slowing;
        (double free, double timeConstant, double limit) = (Free, TimeConstant, Limit);
        double w = from, time = 0;
        // In steps of speed, so that the end is met exactly.
        double step = (speed - from) / Steps;
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
