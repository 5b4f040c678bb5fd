using RigControl.Model.Records;

namespace RigControl.Runtime.Failsafe;

/// <summary>How much a verification provokes. The zero value is everything.</summary>
public enum VerificationScope
{
    Whole = 0,

    /// <summary>Lid, stop and silence with the power off and the pack disconnected: after a start of an otherwise unchanged board.</summary>
    AfterRestart = 1,
}

/// <summary>What a verification was made for, as it stands in the record in place of a procedure file.</summary>
/// <param name="Scope">How much of it.</param>
/// <param name="CeasesPulses">Whether the output could be asked for no pulses under power.</param>
public sealed record VerificationPlan(VerificationScope Scope, bool CeasesPulses)
{
    /// <summary>As a document for the record.</summary>
    public DocumentCopy Text => new(VerificationProcedure.Name, $"{Scope} {CeasesPulses}");

    /// <summary>Reads what <see cref="Text"/> wrote; null where the record is of something else.</summary>
    public static VerificationPlan? Of(DocumentCopy document) =>
        document.Name == VerificationProcedure.Name && document.Text.Split(' ') is [var scope, var ceases]
            && Enum.TryParse(scope, out VerificationScope what) && bool.TryParse(ceases, out bool can)
            ? new VerificationPlan(what, can)
            : null;
}
