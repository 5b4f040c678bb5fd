using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Runtime.Scanning;

/// <summary>The words that a person reads for what the kernel says in numbers.</summary>
public static class Words
{
    public static string Of(RigState state) => state switch
    {
        RigState.SafeStop => "safe-stop",
        RigState.SpinUp => "spin-up",
        RigState.CoastDown => "coast-down",
        _ => state.ToString().ToLowerInvariant(),
    };

    public static string Of(StepKind kind) => kind switch
    {
        StepKind.SpinUp => "spin-up",
        StepKind.CoastDown => "coast-down",
        _ => kind.ToString().ToLowerInvariant(),
    };

    public static string Of(CommandKind kind) => kind.ToString().ToLowerInvariant();

    public static string Of(CommandSource source) => source switch
    {
        CommandSource.Bench => "the operator at the bench",
        CommandSource.Host => "the host",
        _ => "the network",
    };

    public static string Of(RefusalReason reason) => reason switch
    {
        RefusalReason.WrongState => "it does not belong to this state",
        RefusalReason.NotAtStandstill => "the rotor is not proven to stand still",
        RefusalReason.CauseStands => "a latched cause still stands",
        RefusalReason.InterlockObjects => "an interlock objects",
        RefusalReason.NotFromHere => "only the bench may raise energy",
        RefusalReason.NotInProcedure => "the procedure has no such step now",
        RefusalReason.NeedsRestart => "this cause is let go only by a restart, after somebody has looked",
        RefusalReason.NoSuchAnswer => "the question does not take this answer",
        RefusalReason.NotRunDown => "the rotor turns, or the longest coast-down has not passed since the power went",
        RefusalReason.Stopped => "stop was given at the same moment",
        RefusalReason.None => "accepted",
        _ => "it was not considered",
    };

    /// <summary>Why an act was refused, and what to do instead where that depends on the act.</summary>
    public static string Of(CommandKind act, RefusalReason reason) => (act, reason) switch
    {
        (CommandKind.Reset, RefusalReason.WrongState) => "there is nothing to reset outside safe-stop",
        (CommandKind.Arm, RefusalReason.WrongState) => "arming begins in idle; reset comes before it",
        (CommandKind.Start, RefusalReason.WrongState) => "nothing is ready to start; arm comes before it",
        (CommandKind.Unlock, RefusalReason.WrongState) => "the lid is released only in idle",
        (CommandKind.Look, RefusalReason.WrongState) => "the rotor is proven to stand; nobody has to look",
        (CommandKind.Answer, RefusalReason.WrongState) => "nothing is asked now",
        _ => Of(reason),
    };

    /// <summary>What a scan did about a trip, for the record.</summary>
    public static string Done(in ScanRecord record) =>
        record.Outputs.Power ? "output stopped; power stays on for the stopping time" : "output stopped, power off";

    /// <summary>What must be true before the latch of an interlock is let go.</summary>
    public static string BeforeReset(ResetPolicy policy) => policy == ResetPolicy.Restart
        ? "somebody has looked, and the host is restarted"
        : "the cause is gone, the rotor is proven to stand, and the operator resets at the bench";

    /// <summary>Kebab-case name of one of the kernel's own causes, as it stands where an interlock's id would.</summary>
    public static string Name(TripCause cause) => TripCauseNames.Of(cause);

    public static string Of(TripCause cause) => cause switch
    {
        TripCause.StopCommand => "stopped by a command",
        TripCause.Deadline => "the step did not end within its time",
        TripCause.OutputGuard => "the output guard found the output energised where nothing permitted it",
        TripCause.LateScans => "the scan came late three times in a row",
        TripCause.Permissive => "a permissive of the next step objects",
        TripCause.HostStop => "stopped by the host",
        TripCause.Receiver => "the receiver gave no pulse, or its stick was not at stop when the gate was to open",
        TripCause.Provoked => "what was provoked was seen to its end",
        TripCause.VerificationCeiling => "the rotor went above the speed that a verification may reach, the stick above its throttle, or the speed could not be read under power",
        TripCause.Unanswered => "what was provoked was not answered as it must be, or what was to be seen was so already",
        _ => "the clock went backwards",
    };
}
