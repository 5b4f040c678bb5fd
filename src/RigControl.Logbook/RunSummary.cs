using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>What a list shows of a run.</summary>
/// <param name="Run">The run's name, unique in the logbook.</param>
/// <param name="StartedAt">In UTC.</param>
/// <param name="Procedure">Name of the procedure.</param>
/// <param name="Article">Name of the article.</param>
/// <param name="Rig">Name of the rig.</param>
/// <param name="Simulated">Whether every device was simulated.</param>
/// <param name="Outcome">
/// What became of it; <see cref="RunOutcome.BrokenOff"/> where nobody wrote an end and nobody is recording, null while it is
/// being recorded.
/// </param>
public sealed record RunSummary(
    string Run, DateTimeOffset StartedAt, string Procedure, string Article, string Rig, bool Simulated, RunOutcome? Outcome);
