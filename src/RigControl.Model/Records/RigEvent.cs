namespace RigControl.Model.Records;

/// <summary>Something that happened, in words and in data. Derived from scan records, or told by the host.</summary>
/// <param name="At">Since the session's clock started.</param>
/// <param name="Scan">Scan in which it happened.</param>
/// <param name="Name">One of <see cref="EventNames"/>.</param>
/// <param name="Subject">Interlock, device, step or command it is about; empty where there is none.</param>
/// <param name="Text">A sentence for a person.</param>
/// <param name="Data">Named values; numbers in the unit that the name says.</param>
public sealed record RigEvent(
    TimeSpan At, long Scan, string Name, string Subject, string Text, IReadOnlyDictionary<string, object> Data);

/// <summary>The approved names of events. Other programs rely on them.</summary>
public static class EventNames
{
    public const string StateEntered = "state-entered";
    public const string StepEntered = "step-entered";
    public const string Trip = "trip";
    public const string Refusal = "refusal";
    public const string OperatorAct = "operator-act";
    public const string FailsafeConfirmed = "failsafe-confirmed";

    /// <summary>A verification has passed; the data hold the proof.</summary>
    public const string FailsafeProof = "failsafe-proof";

    /// <summary>The session ended without power and with the rotor proven to stand.</summary>
    public const string LeftAtRest = "left-at-rest";

    public const string DeviceLost = "device-lost";
    public const string DeviceNote = "device-note";
    public const string ScanLate = "scan-late";
    public const string RepeatsEnded = "repeats-ended";
    public const string Finished = "finished";

    /// <summary>An interlock or a device has not come back from a call; the host ends.</summary>
    public const string Hung = "hung";

    /// <summary>A person has answered the question of a step.</summary>
    public const string Answer = "answer";

    /// <summary>Somebody on the network has seen a trip. It lowers nothing and lets nothing go.</summary>
    public const string TripSeen = "trip-seen";

    /// <summary>A command from the network was not taken.</summary>
    public const string NetworkRefusal = "network-refusal";

    /// <summary>Something about the link to the network. It never stops a run.</summary>
    public const string TelemetryNote = "telemetry-note";

    /// <summary>Words that a person added.</summary>
    public const string Note = "note";
}
