using System.Globalization;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Rigs;

namespace RigControl.Campaigns;

/// <summary>
/// The failsafe proof of a run: made, bound, sealed and judged by the real code. The verification itself is not played; it passes
/// once nothing is wrong any more. What was verified is noted a second time in plain facts, for the checker to compare.
/// </summary>
internal sealed class CampaignProof(Scenario scenario, TrueTime time)
{
    private static readonly byte[] Key = [.. Enumerable.Range(1, ProofSeal.KeyLength).Select(i => (byte)i)];
    private static readonly DateTimeOffset Epoch = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private static readonly ProvocationResult Seen = new("lid", 1, "it stops", "it stopped", 0.01, 0.1, true, false);

    private readonly PlannedFault? _expired = scenario.AllFaults.FirstOrDefault(f => f.Kind == FaultKind.ProofExpired);
    private FailsafeProof? _proof;
    private string? _voided;
    private ((int Serial, int Start) Board, double Until)? _verified;
    private double _begunAt;

    /// <summary>Whether the session that has begun was told that the failsafe is confirmed, and was not told otherwise since.</summary>
    public bool IsConfirmed { get; private set; }

    /// <summary>Proofs made in the run.</summary>
    public int Made { get; private set; }

    /// <summary>Begins a session on an assembled rig.</summary>
    /// <param name="bench">What is really there.</param>
    /// <param name="calm">Whether nothing is wrong any more, so that a verification passes.</param>
    public void Begin(AssembledRig rig, FaultyBench bench, bool calm)
    {
        bool isFirst = time.Now == 0;
        _begunAt = time.Now;
        if (isFirst ? !scenario.IsOn(FaultKind.ProofAbsent, time.Now) : calm && !Holds(rig))
            Verify(rig, bench, isFirst);
        IsConfirmed = Holds(rig);
        rig.Host.FailsafeConfirmed = IsConfirmed;
    }

    /// <summary>Takes the confirmation away where something happened that voids it.</summary>
    public void Follow(HostDevice host)
    {
        if (!IsConfirmed || !scenario.IsOn(FaultKind.ProofVoided, time.Now))
            return;
        (_voided, IsConfirmed, host.FailsafeConfirmed) = ("a way to stop was seen to fail", false, false);
    }

    /// <summary>Whether what was seen to work is what is there now. A run that has begun goes on behind the end of a proof's time.</summary>
    public bool IsTrue(FaultyBench bench) => _voided is null && _verified is { } verified && verified.Board == bench.Board && _begunAt <= verified.Until;

    private void Verify(AssembledRig rig, FaultyBench bench, bool isFirst)
    {
        double until = isFirst && _expired is { } expired ? expired.From : time.Now + ProofJudge.UsualTime.TotalSeconds;
        FailsafeProof proof = new()
        {
            Run = time.Now.ToString(CultureInfo.InvariantCulture), MadeAt = At(time.Now), ValidUntil = At(until), Simulated = true,
            BoundTo = ProofBinding.Of(rig, ""), Provocations = [Seen],
        };
        Made++;
        (_proof, _voided, _verified) = (ProofSeal.Seal(proof, Key), null, (bench.Board, until));
    }

    private bool Holds(AssembledRig rig) => ProofJudge.Judge(_proof, ProofBinding.Of(rig, ""), rig.Simulated, At(time.Now), Key, _voided).IsValid;

    private static DateTimeOffset At(double seconds) => Epoch + TimeSpan.FromSeconds(seconds);
}
