namespace RigControl.Physics;

/// <summary>
/// Lid, bolt, stop circuit and contactor. Stop circuit and lid contact A lie in the contactor's coil circuit;
/// the contactor's mirror contact lies in the bolt's release circuit, so that closed or welded contacts keep the bolt home.
/// The bolt is spring-returned. The zero value has lid closed, bolt home, contactor open.
/// </summary>
public struct EnclosureState
{
    private DelayedSwitch _contactor;
    private DelayedSwitch _drawn;
    private bool _lidOpen;

    public readonly bool LidClosed => !_lidOpen;

    /// <summary>Bolt in the lid's strike.</summary>
    public readonly bool BoltHome => !_drawn.On && !_lidOpen;

    public readonly bool ContactorClosed => _contactor.On;

    /// <summary>Contact that closes with the lid.</summary>
    public bool LidContactA { get; private set; }

    /// <summary>Contact that opens with the lid's closing.</summary>
    public bool LidContactB { get; private set; }

    public bool StopCircuitClosed { get; private set; }

    /// <summary>Moves everything for <paramref name="dt"/> s.</summary>
    public void Advance(Enclosure data, in BenchDrive drive, in BenchFaults faults, double dt)
    {
        MoveLid(faults);
        LidContactA = Reading(!_lidOpen, faults.LidContactA);
        LidContactB = Reading(_lidOpen, faults.LidContactB);
        StopCircuitClosed = Reading(!faults.StopPressed, faults.StopContact);
        MoveContactor(data, drive.PowerRequested, faults, dt);
        MoveBolt(data, drive.UnlockRequested, faults, dt);
    }

    private void MoveLid(in BenchFaults faults)
        => _lidOpen = faults.LidForced || (faults.LidPulled && (_lidOpen || _drawn.On));

    private void MoveContactor(Enclosure data, bool requested, in BenchFaults faults, double dt)
    {
        bool coil = requested && StopCircuitClosed && LidContactA && !faults.ContactorDead;
        bool welded = faults.ContactorWelded && _contactor.On;
        double delay = (coil ? data.ContactorClosing : data.ContactorOpening) + faults.ActuatorDelay;
        _contactor.Advance(coil || welded, delay, dt);
    }

    private void MoveBolt(Enclosure data, bool requested, in BenchFaults faults, double dt)
    {
        bool release = requested && !_contactor.On;
        bool blocked = faults.BoltStuck || (_drawn.On && _lidOpen);
        double delay = (release ? data.BoltReleasing : data.BoltReturning) + faults.ActuatorDelay;
        _drawn.Advance(blocked ? _drawn.On : release, delay, dt);
    }

    private static bool Reading(bool truth, ContactFault fault) => fault switch
    {
        ContactFault.StuckOpen => false,
        ContactFault.StuckClosed => true,
        _ => truth,
    };
}
