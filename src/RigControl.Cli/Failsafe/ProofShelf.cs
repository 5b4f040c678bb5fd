using System.Text.Json;
using RigControl.Cli.Calibrating;
using RigControl.Cli.Runs;
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

    // Causes of the kernel and kinds of interlock whose trip says that a way to stop, or time itself, is not what the proof saw.
    private static readonly string[] Voiding = ["clock-step", "output-guard", "power-follows", "output-follows", "current-without-power"];

    /// <summary>Judges the latest proof for a rig as it is open now.</summary>
    public ProofVerdict Judge(AssembledRig rig, ComputerClock now)
    {
        FailsafeProof? proof = Latest(rig.Documents.RigText.Name, rig.Documents.ArticleText.Name, out string? since);
        since ??= proof is null ? null : ClockSetSince(proof, now);
        return ProofJudge.Judge(proof, BindingOf(rig), rig.Simulated, now.Wall, _key.Value, since);
    }

    /// <summary>Whether the wall clock was set since a proof was made, so that its time is no time any more; null where nothing shows it.</summary>
    public string? ClockSetSince(FailsafeProof proof, ComputerClock now) => now.JumpedSince(proof.Clock) ?? now.IsBehind(LatestTime(proof.Run));

    /// <summary>The latest proof for a rig and an article, and what has happened since that voids it.</summary>
    public FailsafeProof? Latest(string rig, string article, out string? since)
    {
        since = null;
        foreach (RunSummary run in book.RunsAsRecorded().Reverse().Take(MostRuns).Where(r => r.Rig == rig))
        {
            IReadOnlyList<RigEvent> events = [.. book.Events(run.Run)];
            bool verifies = run.Procedure == VerificationProcedure.Name && run.Article == article;
            if (verifies && RecordedProof.Of(events) is { } kept)
                return kept.Proof;
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

    // Of whatever this program has done since a run, on any rig. When a trace was recorded elsewhere is its user's word.
    private DateTimeOffset? LatestTime(string since)
    {
        RunSummary[] runs = [.. book.RunsAsRecorded().SkipWhile(r => r.Run != since)];
        IEnumerable<DateTimeOffset> begun = runs.Where(r => r.Rig is not (ForeignRun.ByHand or ForeignRun.Imported)).Select(r => r.StartedAt);
        return begun.Concat(runs.Select(r => book.End(r.Run)?.EndedAt).OfType<DateTimeOffset>()).Select(t => (DateTimeOffset?)t).Max();
    }

    // A trip names the interlock as the rig file does; what it watches is told by its kind.
    private string? VoidedBy(RunSummary run, IReadOnlyList<RigEvent> events)
    {
        IReadOnlyList<InterlockIdentity> interlocks = book.Header(run.Run).Interlocks;
        bool Voids(string cause) => Voiding.Contains(interlocks.FirstOrDefault(i => i.Id == cause)?.Plugin ?? cause);
        RigEvent? fault = events.FirstOrDefault(e => e.Name == EventNames.DeviceLost || e.Name == EventNames.Hung || (e.Name == EventNames.Trip && Voids(e.Subject)));
        return fault is null ? null : $"run {run.Run} ended with: {fault.Text}";
    }
}
