using RigControl.Model.Records;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>How a session went.</summary>
/// <param name="Outcome">What became of the run.</param>
/// <param name="Refusals">Why it did not start, all reasons.</param>
/// <param name="Note">A sentence on what failed, or null.</param>
/// <param name="Storage">Set when the record could not be kept.</param>
public sealed record RunResult(RunOutcome Outcome, IReadOnlyList<Objection> Refusals, string? Note, StorageException? Storage);
