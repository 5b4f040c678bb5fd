using RigControl.Model.Records;

namespace RigControl.Logbook.Texts;

/// <summary>How an outcome stands in the file, for people and other programs.</summary>
internal static class OutcomeNames
{
    private static readonly Dictionary<RunOutcome, string> Names = new()
    {
        [RunOutcome.BrokenOff] = "broken-off",
        [RunOutcome.Completed] = "completed",
        [RunOutcome.Refused] = "refused",
        [RunOutcome.SafeStop] = "safe-stop",
        [RunOutcome.Failed] = "failed",
    };

    public static string Name(RunOutcome outcome) => Names[outcome];

    public static RunOutcome Parse(string name)
    {
        foreach ((RunOutcome outcome, string written) in Names)
        {
            if (written == name)
                return outcome;
        }
        throw new InvalidDataException($"no outcome is called '{name}'");
    }
}
