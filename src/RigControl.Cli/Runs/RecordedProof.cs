using System.Text.Json;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Runs;

/// <summary>The failsafe proof that stands in the record of a verification.</summary>
internal static class RecordedProof
{
    /// <summary>Its sentence and what it holds; null where there is none that can be read. Whether it is still good is not asked here.</summary>
    public static (string Text, FailsafeProof Proof)? Of(RunRecord record) => Of(record.Events);

    /// <summary>The same of a run's events.</summary>
    public static (string Text, FailsafeProof Proof)? Of(IEnumerable<RigEvent> events)
    {
        if (events.FirstOrDefault(e => e.Name == EventNames.FailsafeProof) is not { } kept || !kept.Data.TryGetValue("proof", out object? text))
            return null;
        try
        {
            return JsonSerializer.Deserialize<FailsafeProof>((string)text) is { } proof ? (Sentence(kept.Text, proof), proof) : null;
        }
        catch (Exception e) when (e is JsonException or InvalidCastException)
        {
            return null;
        }
    }

    private static string Sentence(string told, FailsafeProof proof) =>
        $"{char.ToUpperInvariant(told[0])}{told[1..]}{(proof.Simulated ? ", on a simulated rig, which proves nothing of a real one" : "")}";
}
