using System.Text.Json;
using RigControl.Cli.Calibrating;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Failsafe;

/// <summary>The failsafe proofs of a logbook: each stands in the record of its verification.</summary>
internal sealed class ProofShelf(LogbookFile book, string keyFile)
{
    // Read only where a proof is asked for or made: a simulated run needs neither.
    private readonly Lazy<byte[]> _key = new(() => MachineKey.Read(keyFile));

    /// <summary>Most runs looked through for the latest proof: no proof outlives a day.</summary>
    private const int MostRuns = 200;

    // Trips that say that a way to stop, or time itself, is not what the proof saw.
    private static readonly string[] Voiding = ["clock-step", "output-guard", "power-follows", "output-follows", "current-without-power"];

    /// <summary>Judges the latest proof for a rig as it is open now.</summary>
    public ProofVerdict Judge(AssembledRig rig, DateTimeOffset now)
    {
        FailsafeProof? proof = Latest(rig.Documents.RigText.Name, rig.Documents.ArticleText.Name, out string? since);
        return ProofJudge.Judge(proof, BindingOf(rig), rig.Simulated, now, _key.Value, since);
    }

    /// <summary>The latest proof for a rig and an article, and what has happened since that voids it.</summary>
    public FailsafeProof? Latest(string rig, string article, out string? since)
    {
        since = null;
        foreach (RunSummary run in book.Runs().Reverse().Take(MostRuns).Where(r => r.Rig == rig))
        {
            IReadOnlyList<RigEvent> events = [.. book.Events(run.Run)];
            bool verifies = run.Procedure == VerificationProcedure.Name && run.Article == article;
            if (verifies && Read(events) is { } proof)
                return proof;
            since ??= verifies ? $"a verification on {run.StartedAt.UtcDateTime:yyyy-MM-dd HH:mm} UTC has failed since" : VoidedBy(run, events);
        }

        return null;
    }

    /// <summary>Seals a proof and puts it into the record of its run.</summary>
    public FailsafeProof Keep(FailsafeProof proof, AssembledRig rig, IRunRecorder recorder)
    {
        FailsafeProof whole = ProofSeal.Seal(proof, _key.Value);
        RecordChunk chunk = new(rig.DeviceIdentities.Count);
        string text = $"the failsafe was verified; the proof is good until {whole.ValidUntil.UtcDateTime:yyyy-MM-dd HH:mm} UTC";
        chunk.Events.Add(new RigEvent(TimeSpan.Zero, 0, EventNames.FailsafeProof, "", text, new Dictionary<string, object> { ["proof"] = JsonSerializer.Serialize(whole) }));
        recorder.Append(chunk);
        recorder.Commit();
        return whole;
    }

    /// <summary>What a proof for a rig as it is open now would be bound to.</summary>
    public SortedDictionary<string, string> BindingOf(AssembledRig rig)
    {
        string calibrations = CalibrationFile.Beside(book.Path).Path;
        return ProofBinding.Of(rig, File.Exists(calibrations) ? File.ReadAllText(calibrations) : "");
    }

    private static string? VoidedBy(RunSummary run, IReadOnlyList<RigEvent> events)
    {
        RigEvent? fault = events.FirstOrDefault(e => e.Name == EventNames.DeviceLost || e.Name == EventNames.Hung || (e.Name == EventNames.Trip && Voiding.Contains(e.Subject)));
        return fault is null ? null : $"run {run.Run} ended with: {fault.Text}";
    }

    // One that does not read any more is none.
    private static FailsafeProof? Read(IReadOnlyList<RigEvent> events)
    {
        try
        {
            return events.FirstOrDefault(e => e.Name == EventNames.FailsafeProof)?.Data["proof"] is string text ? JsonSerializer.Deserialize<FailsafeProof>(text) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
