using RigControl.Model.Records;

namespace RigControl.Cli.Terminal;

/// <summary>
/// Asks the operator for the failsafe, until a measured verification takes its place. The answer is an act of its own and
/// goes into the record; a simulated bench may give it by itself.
/// </summary>
internal static class FailsafeQuestion
{
    public static RigEvent BySimulation() => Event("confirmed by the simulated bench itself: nothing real is behind it", "simulation");

    /// <summary>Null when the operator does not confirm.</summary>
    public static RigEvent? ByPerson(string name)
    {
        Console.Error.WriteLine("Today, on this rig, with this article: was it tried that the output stops");
        Console.Error.WriteLine("  when the radio is switched off, when the lid opens,");
        Console.Error.WriteLine("  when the stop is pressed, and when this computer falls silent?");
        Console.Error.Write("Type  confirmed  and ENTER; anything else leaves the rig unarmed: ");
        return Console.In.ReadLine()?.Trim() == "confirmed" ? Event($"confirmed by {name} at the terminal", name) : null;
    }

    private static RigEvent Event(string text, string who) =>
        new(TimeSpan.Zero, 0, EventNames.FailsafeConfirmed, who, text, new Dictionary<string, object>());
}
