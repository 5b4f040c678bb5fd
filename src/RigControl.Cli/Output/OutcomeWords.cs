using RigControl.Model.Records;

namespace RigControl.Cli.Output;

/// <summary>The words for a run's outcome, in JSON and on the screen.</summary>
internal static class OutcomeWords
{
    public static string Of(RunOutcome outcome) => outcome switch
    {
        RunOutcome.Completed => "completed",
        RunOutcome.Refused => "refused",
        RunOutcome.SafeStop => "safe-stop",
        RunOutcome.Failed => "failed",
        _ => "broken-off",
    };
}
