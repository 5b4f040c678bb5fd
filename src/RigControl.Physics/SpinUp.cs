namespace RigControl.Physics;

/// <summary>
/// A motor taking a rotor up: torque under the controller's current limit first, then speed approaching what the demand asks for,
/// with drag all the way: dw/dt = min(limit, (demand · free − w) / time constant) − drag.
/// First-order part: M. Drela, First-Order DC Electric Motor Model, MIT 2007 (from memory).
/// </summary>
/// <param name="Final">Speed at full demand with drag, rad/s.</param>
/// <param name="TimeConstant">s; inertia × resistance over Kt², above 0.</param>
/// <param name="Limit">Greatest acceleration that the current limit allows, rad/s2; infinity for none.</param>
/// <param name="Drag">Drag over inertia, as slowing in rad/s2; its initial speed is not used.</param>
public readonly record struct SpinUp(double Final, double TimeConstant, double Limit, CoastDown Drag)
{
    /// <summary>Speed at full demand if nothing dragged, rad/s.</summary>
    public double Free => Final + TimeConstant * Drag.Slowing(Final);

    /// <summary>Speed after <paramref name="dt"/> s, rad/s, under a demand from 0 to 1. What is too fast is not braked.</summary>
    public double Advance(double speed, double demand, double dt) => Advance(speed, demand, dt, 1 - Math.Exp(-dt / TimeConstant));

    /// <summary>The same with 1 − exp(−dt / time constant) at hand.</summary>
    public double Advance(double speed, double demand, double dt, double approach)
    {
        double slowing = speed > 0 ? Drag.Slowing(speed) : 0;
        double drive = (demand * Free - speed) / TimeConstant;
        if (drive > Limit)
            return speed + dt * (Limit - slowing);
        if (drive <= 0)
            return Math.Max(0, speed - dt * slowing);
        return speed + approach * TimeConstant * (drive - slowing);
    }
}
