using RigControl.Physics;

namespace RigControl.Campaigns;

/// <summary>What a scenario does to the plant at a moment.</summary>
internal static class BenchBreaker
{
    /// <summary>Longest delay that <see cref="FaultKind.SlowActuators"/> adds to contactor and bolt, s.</summary>
    public const double LongestDelay = 0.3;

    public static BenchFaults FaultsAt(Scenario scenario, double now)
    {
        BenchFaults faults = default;
        foreach (PlannedFault fault in scenario.AllFaults)
        {
            if (fault.IsOn(now))
                Add(fault, ref faults);
        }

        // Somebody opens and closes the lid once the faults have ended: contacts that contradicted each other ask for it.
        faults.LidForced |= scenario.NeedsLidMoved && now >= scenario.CalmFrom && now < scenario.CalmFrom + Scenario.LidVisit;
        return faults;
    }

    private static void Add(PlannedFault fault, ref BenchFaults faults)
    {
        switch (fault.Kind)
        {
            case FaultKind.LidForced: faults.LidForced = true; break;
            // Who wants it unlocked pulls at it.
            case FaultKind.LidPulled or FaultKind.UnlockSought: faults.LidPulled = true; break;
            case FaultKind.LidContactStuck: Stick(fault.Size, ref faults); break;
            case FaultKind.StopPressed: faults.StopPressed = true; break;
            case FaultKind.StopContactStuck: faults.StopContact = fault.Size < 0.5 ? ContactFault.StuckOpen : ContactFault.StuckClosed; break;
            case FaultKind.RadioLost: faults.RadioLost = true; break;
            case FaultKind.ContactorWelded: faults.ContactorWelded = true; break;
            case FaultKind.ContactorDead: faults.ContactorDead = true; break;
            case FaultKind.BoltStuck: faults.BoltStuck = true; break;
            case FaultKind.SlowActuators: faults.ActuatorDelay = fault.Size * LongestDelay; break;
            case FaultKind.StuckPulse: faults.StuckPulse = 1000 + fault.Size * 1000; break;
            case FaultKind.ControllerRunaway: faults.ControllerRunaway = true; break;
            case FaultKind.ControllerShorted: faults.ControllerShorted = true; break;
            case FaultKind.RotorJammed: faults.RotorJammed = true; break;
            case FaultKind.FailingBearing: faults.AddedFriction = fault.Size * 0.1; break;
            case FaultKind.TachometerSilent: faults.Tachometer = TachometerFault.Silent; break;
            case FaultKind.TachometerDoubled: faults.Tachometer = TachometerFault.Doubled; break;
            case FaultKind.TachometerHalved: faults.Tachometer = TachometerFault.Halved; break;
            case FaultKind.BoardLies: Deceive(fault, ref faults); break;
            case FaultKind.MotorHeated: faults.AddedHeat = fault.Size * 800; break;
        }
    }

    private static void Deceive(PlannedFault fault, ref BenchFaults faults)
    {
        switch (fault.Lie)
        {
            case BoardLie.OfPulse: faults.StuckPulse = 1000 + fault.Size * 3000; break;
            case BoardLie.OfOpening: faults.ContactorWelded = true; break;
            default: faults.ContactorDead = true; break;
        }
    }

    private static void Stick(double size, ref BenchFaults faults)
    {
        ContactFault how = size % 0.5 < 0.25 ? ContactFault.StuckOpen : ContactFault.StuckClosed;
        if (size < 0.5)
            faults.LidContactA = how;
        else
            faults.LidContactB = how;
    }
}
