using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Rehearsal.Runaway;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Judging;

/// <summary>What a failsafe proof has seen of the cut at over-speed.</summary>
internal static class VerifiedCut
{
    // The verification met one moment between two scans; another meets the worst: a reading waits for its scan, the outputs for the next.
    private const int Scans = 2;

    /// <summary>
    /// The cut of the over-speed interlock that the verification provokes, the first of the rig, as slow as it can be behind what was seen: the time until the power read off, a
    /// revolution until a tachometer with one mark tells the speed, and two scans. Null where no proof has seen the power go.
    /// </summary>
    public static OverSpeedCut? Of(FailsafeProof? proof, RigDefinition rig)
    {
        // Another one may have a lower limit, but nobody has seen that it cuts.
        InterlockDefinition? provoked = rig.Interlocks.FirstOrDefault(i => i is { Plugin: "over-speed", Scope: InterlockScope.EveryStep });
        // One that asks for less than a cut has removed no power by itself: a verification takes it away after every stop. Nor is another shaft's the rotor's.
        if (provoked is not { Action: null or DemandAction.CutPower } || provoked.Options.GetValueOrDefault("channel") is not (null or ChannelNames.RotorSpeed))
            return null;
        if (provoked.Options.GetValueOrDefault("limit") is not double limit || proof?.Provocations.FirstOrDefault(p => p is { Name: "over-speed", Passed: true })?.PowerGone is not { } gone)
            return null;
        return new OverSpeedCut(limit, TimeSpan.FromSeconds(gone + 60 / limit + Scans * rig.ScanPeriod.TotalSeconds));
    }
}
