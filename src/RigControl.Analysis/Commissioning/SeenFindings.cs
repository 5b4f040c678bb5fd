namespace RigControl.Analysis.Commissioning;

/// <summary>What only a person sees: which way it turned, and what it did at the stop.</summary>
internal static class SeenFindings
{
    /// <summary>Words of the question about the stop.</summary>
    public const string RanDown = "ran-down", StoppedAtOnce = "stopped-at-once";

    public static IEnumerable<Finding> Of(RotorOffRun run)
    {
        yield return run.Answers.GetValueOrDefault(RotorOffRun.Sense) switch
        {
            "passed" => new("sense of rotation", Verdict.Holds, null, "it turned the right way round"),
            "failed" => new("sense of rotation", Verdict.Wrong, null, "it turned the wrong way round: exchange two of the three motor wires, pack disconnected, and run it again"),
            _ => new("sense of rotation", Verdict.Unknown, null, "nobody said which way it turned"),
        };
        string declared = run.Article.Controller.BrakesAtStop ? "yes" : "no";
        yield return run.Answers.GetValueOrDefault(RotorOffRun.AtStop) switch
        {
            RanDown => Brake(declared, "no", "it ran down by itself after the stop"),
            StoppedAtOnce => Brake(declared, "yes", "it stopped at once, as a controller does that brakes"),
            _ => new("brakes-at-stop", Verdict.Unknown, null, "nobody said what it did at the stop"),
        };
    }

    private static Finding Brake(string declared, string seen, string says) =>
        declared == seen ? new("brakes-at-stop", Verdict.Holds, null, says) : new("brakes-at-stop", Verdict.Change, seen, says);
}
