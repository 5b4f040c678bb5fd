namespace RigControl.Model.Records;

/// <summary>Causes of a safe-stop that are the kernel's own, besides the interlocks. A set, since several may come at once.</summary>
[Flags]
public enum TripCause : uint
{
    None = 0,

    /// <summary>The operator, the panel or the network stopped.</summary>
    StopCommand = 1,

    /// <summary>The step or state did not end within its deadline.</summary>
    Deadline = 2,

    /// <summary>The output guard found the output energised where nothing permitted it.</summary>
    OutputGuard = 4,

    /// <summary>Three scans in a row were late.</summary>
    LateScans = 8,

    /// <summary>A permissive of the next step did not proceed.</summary>
    Permissive = 16,

    /// <summary>The host asked: a device was lost, the record cannot be kept, or the process is ending.</summary>
    HostStop = 32,

    /// <summary>The host's clock went backwards or leapt.</summary>
    ClockStep = 64,

    /// <summary>The receiver gave no pulse while it was to drive, or one off stop when its gate was to open.</summary>
    Receiver = 128,

    /// <summary>A fault that was made on purpose was seen to its end. It voids nothing.</summary>
    Provoked = 256,

    /// <summary>Above the speed that a verification may reach, or its throttle by the stick, or the speed cannot be read while the power is on.</summary>
    VerificationCeiling = 512,

    /// <summary>A fault that was made on purpose was not answered as it must be.</summary>
    Unanswered = 1024,
}

/// <summary>The kernel's own causes by name, as they stand where an interlock's id would.</summary>
public static class TripCauseNames
{
    /// <summary>Kebab-case name of a single cause.</summary>
    public static string Of(TripCause cause) => cause switch
    {
        TripCause.StopCommand => "stop-command",
        TripCause.Deadline => "deadline",
        TripCause.OutputGuard => "output-guard",
        TripCause.LateScans => "late-scans",
        TripCause.Permissive => "permissive",
        TripCause.HostStop => "host-stop",
        TripCause.Receiver => "receiver",
        TripCause.Provoked => "provoked",
        TripCause.VerificationCeiling => "verification-ceiling",
        TripCause.Unanswered => "unanswered",
        _ => "clock-step",
    };
}
