using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Failsafe;

namespace RigControl.Runtime.Rigs;

/// <summary>The three documents of a run, as read and as written.</summary>
public sealed record RigDocuments(
    RigDefinition Rig, DocumentCopy RigText, Article Article, DocumentCopy ArticleText, Procedure Procedure, DocumentCopy ProcedureText)
{
    /// <summary>How much of the failsafe is to be verified; the procedure then follows from what the opened rig has. Null for an ordinary run.</summary>
    public VerificationScope? Verifies { get; init; }

    /// <summary>Between which values the run was rehearsed to stay; empty without a rehearsal.</summary>
    public IReadOnlyList<RehearsedBand> Rehearsed { get; init; } = [];

    /// <summary>The rehearsal that they came from, as it was written; null without one.</summary>
    public DocumentCopy? RehearsalText { get; init; }
}
