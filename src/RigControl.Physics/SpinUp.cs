namespace RigControl.Physics;

/// <summary>
/// A motor taking a rotor up: torque under the controller's current limit first, then speed approaching what the demand asks for,
/// with drag all the way: dw/dt = min(limit, (demand · free − w) / time constant) − drag.
/// First-order part: M. Drela, First-Order DC Electric Motor Model, MIT 2007 (from memory).
/// The time constant is inertia × resistance over Kt². Of the resistance the winding's part grows as the current warms it, and the pack's
/// part counts by the square of the demand (derived: a controller passes power).
/// </summary>
/// <param name="Final">Speed at full demand with drag, rad/s.</param>
/// <param name="TimeConstant">s; at full demand with a cold winding, above 0.</param>
/// <param name="Limit">Greatest acceleration that the current limit allows, rad/s2; infinity for none.</param>
/// <param name="Drag">Drag over inertia, as slowing in rad/s2; its initial speed is not used.</param>
public readonly record struct SpinUp(double Final, double TimeConstant, double Limit, CoastDown Drag)
{
    /// <summary>Share of the time constant that is the pack's resistance, 0 to below 1.</summary>
    public double PackShare { get; init; }

    /// <summary>Share by which the winding's part grows with as much heat in it as the rotor stores at <see cref="Final"/>.</summary>
    public double Warming { get; init; }

    /// <summary>Share of the pack's voltage lost by the charge that a rise to <see cref="Final"/> draws.</summary>
    public double Fade { get; init; }

    /// <summary>Speed at full demand if nothing dragged, rad/s.</summary>
    public double Free => Final + TimeConstant * Drag.Slowing(Final);

    /// <summary>Time constant at full demand, s, after copper has turned into heat what <see cref="Heat"/> counts.</summary>
    public double TimeConstantAfter(double heat) => TimeConstant * (PackShare + (1 - PackShare) * (1 + Warming * heat));

    /// <summary>Speed after <paramref name="dt"/> s, rad/s, under a demand from 0 to 1. What is too fast is not braked.</summary>
    public double Advance(double speed, double demand, double dt)
    {
        Used used = default;
        return Advance(speed, demand, dt, ref used);
    }

    /// <summary>The same, counting what the rise has used; a new one starts from the zero value.</summary>
    public double Advance(double speed, double demand, double dt, ref Used used)
    {
        double slowing = speed > 0 ? Drag.Slowing(speed) : 0;
        double timeConstant = TimeConstant * (PackShare * demand * demand + (1 - PackShare) * (1 + Warming * used.Heat));
        double drive = (demand * Free * (1 - Fade * used.Charge) - speed) / timeConstant;
        if (drive <= 0)
            return Math.Max(0, speed - dt * slowing);
        // 1 − exp(−x) over x, by Padé; within 2e-5 up to x = 1.
        double x = dt / timeConstant;
        double after = drive > Limit ? speed + dt * (Limit - slowing) : speed + dt * (drive - slowing) * 12 / (12 + x * (6 + x));
        double driven = (after - speed) / dt + slowing;
        used = new Used(used.Heat + driven * driven * dt * 2 * TimeConstant / (Final * Final), used.Charge + demand * driven * dt / Final);
        return after;
    }

    /// <summary>What a rise has used so far.</summary>
    /// <param name="Heat">In the winding, as a share of what the rotor stores at the final speed.</param>
    /// <param name="Charge">From the pack, as a share of what a rise to the final speed without drag draws.</param>
    public readonly record struct Used(double Heat, double Charge);
}
