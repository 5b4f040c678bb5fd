using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Runtime.Rigs;

/// <summary>The three documents of a run, as read and as written.</summary>
public sealed record RigDocuments(
    RigDefinition Rig, DocumentCopy RigText, Article Article, DocumentCopy ArticleText, Procedure Procedure, DocumentCopy ProcedureText);
