using RigControl.Model.Rig;

namespace RigControl.Devices.SimulatedRig;

/// <summary>The simulated transmitter: its stick rests at stop and goes to its level once the gate has been open for a second.</summary>
internal sealed class Transmitter(ControllerProfile controller, double level)
{
    // How long a hand at the sticks takes to do the next thing.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    private TimeSpan? _openSince;

    /// <summary>Width of the receiver's pulse, us; 0 without radio.</summary>
    public double Pulse { get; private set; } = controller.StopPulse;

    /// <summary>What its stick asks for, as a share; 0 without radio.</summary>
    public double Level { get; private set; }

    public void Follow(TimeSpan now, bool gateOpen, bool linked)
    {
        _openSince = gateOpen ? _openSince ?? now : null;
        bool pushed = _openSince is { } since && now - since >= Patience;
        Level = linked && pushed ? level : 0;
        Pulse = linked ? controller.PulseFor(Level) : 0;
    }
}
