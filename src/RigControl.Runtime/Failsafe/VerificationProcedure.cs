using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;

namespace RigControl.Runtime.Failsafe;

/// <summary>
/// The verification of a rig's failsafe as a procedure: what has to be provoked follows from the channels and interlocks
/// that the rig has. Stage 1 looks at the contacts with nothing live; stage 2 provokes with live pulses and the power off; stage 3 turns the
/// article slowly. Each step is reached only when all before it have passed.
/// </summary>
public static class VerificationProcedure
{
    /// <summary>Name of the procedure in the record.</summary>
    public const string Name = "failsafe-verification";

    /// <summary>Why a rig and an article cannot be verified, each a sentence; empty where they can.</summary>
    public static IReadOnlyList<string> Lacks(RigDefinition rig, Article article, IReadOnlyList<Channel> channels)
    {
        VerificationParts parts = new(rig, article, channels, ceasesPulses: false);
        List<string> lacks = [];
        if (article.Verification is null)
            lacks.Add($"the article {article.Name} does not say how far it may be turned to verify its failsafe; write `verification: {{ throttle: …, highest-speed: … }}` into it, with values at which it is harmless");
        foreach (string channel in new[] { ChannelNames.RotorSpeed, ChannelNames.OutputThrottle, ChannelNames.OutputPower, ChannelNames.EnclosureLid, ChannelNames.StopClear })
        {
            if (!parts.Reads(channel))
                lacks.Add($"no device of the rig supplies {channel}, without which the failsafe cannot be seen to work");
        }

        foreach (string kind in new[] { "lid-closed", "stop-clear", "over-speed" })
        {
            if (parts.Ids(kind).Count == 0)
                lacks.Add($"the rig has no interlock {kind}; add one to the rig file");
        }

        if (article.Verification is { } ceiling && ceiling.Speed * VerificationParts.TurningShare < 2 * rig.StandstillSpeed)
            lacks.Add($"the verification's highest speed of {ceiling.Speed:0} rpm is too near to standstill below {rig.StandstillSpeed:0} rpm to see anything stop");
        return lacks;
    }

    /// <param name="rig">As its file says.</param>
    /// <param name="article">With its verification ceiling.</param>
    /// <param name="channels">In the order of the input image.</param>
    /// <param name="plan">What for.</param>
    /// <exception cref="AssemblyException">The rig lacks something.</exception>
    public static Procedure For(RigDefinition rig, Article article, IReadOnlyList<Channel> channels, VerificationPlan plan)
    {
        IReadOnlyList<string> lacks = Lacks(rig, article, channels);
        if (lacks.Count > 0)
            throw new AssemblyException(lacks, isDevice: false);
        VerificationParts parts = new(rig, article, channels, plan.CeasesPulses);
        IEnumerable<Step> stages = plan.Scope == VerificationScope.Whole
            ? [.. ContactStage.Steps(parts), .. PulseStage.Steps(parts), .. TurningStage.Steps(parts), ContactStage.PowerOffAfter]
            : [ContactStage.PowerOff, PulseStage.PackDisconnected, .. PulseStage.ByTheBoard(parts)];
        List<Step> steps = [.. stages, new Step { Kind = StepKind.Rest, For = TimeSpan.FromSeconds(0.5), Timeout = TimeSpan.FromSeconds(2) }];
        return new Procedure
        {
            Name = Name, Repeat = 1, Requires = [], Figures = [], Verification = article.Verification,
            Steps = [.. steps.Select((step, place) => step with { Item = place })],
        };
    }
}
