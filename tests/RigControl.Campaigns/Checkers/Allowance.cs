namespace RigControl.Campaigns.Checkers;

/// <summary>
/// What the design allows, by class of fault: the time until a stop takes effect, and which of the two ways to stop are left.
/// All in s. Nothing of it is asked of the kernel; it comes from the plant and from the periods that the design states.
/// </summary>
internal static class Allowance
{
    /// <summary>A reading waits for its scan and the outputs for the next: two scans.</summary>
    public const double Scans = 2 * 0.005;

    /// <summary>The contactor's own opening time, and a scan of grace for the moment within a scan.</summary>
    public const double Opening = 0.012 + 0.005;

    /// <summary>A revolution at the limit: the tachometer has one mark.</summary>
    public const double Revolution = 0.012;

    /// <summary>A bench that hears no host stops by itself after this time.</summary>
    public const double HostSilence = 0.100 + 0.005;

    /// <summary>A reading that comes late is Bad after this age, and one out of order counts when the next one in order comes.</summary>
    public const double LateReading = 0.030;

    /// <summary>Temperatures are read this often.</summary>
    public const double TemperaturePeriod = 0.100 + 0.005;

    /// <summary>Contacts that do not change are told this often.</summary>
    public const double ContactPeriod = 0.020 + 0.005;

    /// <summary>How often the host tells who is at the bench.</summary>
    public const double HostPeriod = 0.050 + 0.005;

    /// <summary>Class "host away": nobody scans, or nobody hears it, and the bench stops by itself.</summary>
    public static double Away(Scenario scenario) =>
        scenario.Has(FaultKind.HostRestart, FaultKind.DeviceThrows, FaultKind.ScansLate, FaultKind.RigUnpowered, FaultKind.BoardSwapped) ? HostSilence : 0;

    /// <summary>Time without pulses after which the controller takes them as ceased, and stops.</summary>
    public const double PulseTimeout = 0.100 + 0.005;

    /// <summary>
    /// Class "pulses cease": a board that restarts or hears no host gives no stop pulse any more, only none at all. The power
    /// goes with the pulses; where it does not, or comes off late, the controller's own time without pulses has to pass.
    /// </summary>
    public static double Ceased(Scenario scenario) =>
        (Away(scenario) > 0 || scenario.Has(FaultKind.BoardRestart)) && (PowerGone(scenario) || scenario.Has(FaultKind.SlowActuators)) ? PulseTimeout : 0;

    /// <summary>Class "slow actuators": the contactor needs longer by what the fault adds.</summary>
    public static double Delay(Scenario scenario)
    {
        // Asked several times in every period of every run.
        double size = 0;
        foreach (PlannedFault fault in scenario.Faults)
            size += fault.Kind == FaultKind.SlowActuators ? fault.Size : 0;
        return size * BenchBreaker.LongestDelay;
    }

    /// <summary>Until a stop by signal has taken effect.</summary>
    public static double Signal(Scenario scenario) => Scans + 0.005 + Away(scenario) + Ceased(scenario);

    /// <summary>Until a stop by power, decided by the host, has taken effect.</summary>
    public static double Power(Scenario scenario) => Scans + Opening + Delay(scenario) + Away(scenario);

    /// <summary>Until a stop by power that needs no host has taken effect: the contact lies in the contactor's coil circuit.</summary>
    public static double Coil(Scenario scenario) => Opening + 0.005 + Delay(scenario);

    /// <summary>Class "controller does not obey": the signal's way to stop is gone.</summary>
    public static bool SignalGone(Scenario scenario) =>
        scenario.Has(FaultKind.StuckPulse, FaultKind.ControllerRunaway, FaultKind.ControllerShorted) || scenario.Has(BoardLie.OfPulse);

    /// <summary>Class "contactor welded": the power's way to stop is gone.</summary>
    public static bool PowerGone(Scenario scenario) => scenario.Has(FaultKind.ContactorWelded) || scenario.Has(BoardLie.OfOpening);

    /// <summary>Class "speed unseen": what reads the speed lies plausibly, which no interlock can know.</summary>
    public static bool SpeedUnseen(Scenario scenario) => scenario.Has(FaultKind.TachometerSilent, FaultKind.TachometerHalved) || Lies(scenario, BenchChannels.Speed);

    /// <summary>
    /// Class "rest unseen": as above, but for a speed that falls to nothing at once, which proves no rest. A controller that does not
    /// obey may drive what reads as standing where the power stays as well: a mark says nothing of the first revolution.
    /// </summary>
    public static bool RestUnseen(Scenario scenario)
    {
        if (SignalGone(scenario) && PowerGone(scenario))
            return true;
        foreach (PlannedFault fault in scenario.Faults)
        {
            if (fault.Kind is FaultKind.TachometerSilent or FaultKind.TachometerHalved || (fault.Kind != FaultKind.TachometerZero && MayPass(fault, BenchChannels.Speed)))
                return true;
        }

        return false;
    }

    /// <summary>Whether a sensor fault on a channel may pass for a reading.</summary>
    public static bool Lies(Scenario scenario, int channel)
    {
        foreach (PlannedFault fault in scenario.Faults)
        {
            if (MayPass(fault, channel))
                return true;
        }

        return false;
    }

    private static bool MayPass(PlannedFault fault, int channel) => fault.Channel == channel && fault.Kind is
        FaultKind.SensorStuck or FaultKind.SensorDrifting or FaultKind.SensorScaled or FaultKind.SensorLying or FaultKind.SensorLate
        or FaultKind.BoltLies or FaultKind.TachometerFrozen or FaultKind.TachometerZero;

    /// <summary>The shortest of the ways that are left; infinite where none is.</summary>
    public static double Shortest(bool signal, double bySignal, bool power, double byPower)
    {
        double shortest = double.PositiveInfinity;
        if (signal)
            shortest = bySignal;
        return power ? Math.Min(shortest, byPower) : shortest;
    }
}
