using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Terminal;

/// <summary>
/// What stands for the failsafe at the beginning of a run, and goes into its record: a proof; on a simulated bench the bench itself; and
/// only where no rotor is mounted a person's word.
/// </summary>
internal static class FailsafeQuestion
{
    /// <summary>Null where nothing is energised, or nobody vouches for it.</summary>
    public static RigEvent? Answer(AssembledRig rig, IOperator acting, ProofVerdict proof)
    {
        if (proof.IsValid)
            return Event($"proven by the verification in this logbook{Without(proof.Held)}", "proof");
        if (acting is ScriptedOperator)
            return Event("confirmed by the simulated bench itself: nothing real is behind it", "simulation");
        return rig.Documents.Procedure.Energises ? ByPerson(acting.Name) : null;
    }

    private static string Without(FailsafeProof? proof) =>
        proof is { NotProvoked: { Count: > 0 } left } ? $"; not provoked there: {string.Join(", ", left.Select(n => n.Name))}" : "";

    private static RigEvent? ByPerson(string name)
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
