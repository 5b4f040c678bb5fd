using RigControl.Model.Rig;
using RigControl.Physics;

namespace RigControl.Devices.SimulatedRig;

/// <summary>
/// What a board does without its host: a lid or stop contact that opens stops the output, and it stays stopped until the
/// contact is closed again and stop without power has been demanded.
/// </summary>
internal sealed class OwnStop
{
    private bool _stopped;

    /// <summary>Whether the bench stops by itself.</summary>
    public bool Follow(in BenchReadings readings, in OutputImage outputs)
    {
        bool open = !readings.LidContactA || readings.LidContactB || !readings.StopCircuitClosed;
        _stopped = open || (_stopped && (outputs.Drives || outputs.Power));
        return _stopped;
    }
}
