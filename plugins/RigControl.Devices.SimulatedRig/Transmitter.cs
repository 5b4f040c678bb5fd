using RigControl.Model.Rig;

namespace RigControl.Devices.SimulatedRig;

/// <summary>
/// The simulated transmitter and its receiver. Until a hand takes the stick it rests at stop and goes to its level by itself, once the gate
/// has been open for a second.
/// </summary>
/// <param name="controller">Whose pulses they are.</param>
/// <param name="level">Where the stick goes by itself, as a share.</param>
/// <param name="slight">Where a hand opens it to, as a share.</param>
internal sealed class Transmitter(ControllerProfile controller, double level, double slight)
{
    // How long a hand at the sticks takes to do the next thing.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    private TimeSpan? _openSince;
    private double? _pushed;

    /// <summary>Width of the receiver's pulse, us; 0 without radio.</summary>
    public double Pulse { get; private set; } = controller.StopPulse;

    /// <summary>What its stick asks for, as a share; 0 without radio.</summary>
    public double Level { get; private set; }

    /// <summary>A hand opens the stick a little, or puts it back to stop; it stays there, with the radio or without.</summary>
    public void Push(bool open) => _pushed = open ? slight : 0;

    /// <param name="now">Rig time.</param>
    /// <param name="gateOpen">Whether its pulse goes through.</param>
    /// <param name="linked">Whether the receiver hears it.</param>
    /// <param name="holds">Whether the receiver goes on with its last pulse when it does not.</param>
    public void Follow(TimeSpan now, bool gateOpen, bool linked, bool holds)
    {
        _openSince = gateOpen ? _openSince ?? now : null;
        if (!linked && holds)
            return;
        bool isTime = _openSince is { } since && now - since >= Patience;
        Level = !linked ? 0 : _pushed ?? (isTime ? level : 0);
        Pulse = linked ? controller.PulseFor(Level) : 0;
    }
}
