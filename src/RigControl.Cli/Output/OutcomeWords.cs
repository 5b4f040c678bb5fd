using RigControl.Logbook;
using RigControl.Model.Records;

namespace RigControl.Cli.Output;

/// <summary>The words for a run's outcome, in JSON and on the screen.</summary>
internal static class OutcomeWords
{
    /// <summary>A run that another process is recording has no outcome yet.</summary>
    public static string Of(RunSummary run) => run.Outcome is { } outcome ? Of(outcome) : "running";

    public static string Of(RunOutcome outcome) => outcome switch
    {
        RunOutcome.Completed => "completed",
        RunOutcome.Refused => "refused",
        RunOutcome.SafeStop => "safe-stop",
        RunOutcome.Failed => "failed",
        _ => "broken-off",
    };
}
