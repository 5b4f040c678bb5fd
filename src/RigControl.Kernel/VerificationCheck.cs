using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>Whether a verification keeps below its ceiling and can see what it needs; and whether nothing else provokes.</summary>
internal static class VerificationCheck
{
    public static void Check(Procedure procedure, IReadOnlyList<Channel> channels, List<string> reasons)
    {
        if (procedure.Verification is { } ceiling)
            Check(procedure, ceiling, channels, reasons);
        else if (procedure.Steps.Any(s => s.Provocation is not null || s.Unpowered || s.Kind == StepKind.Provoke))
            reasons.Add("only a verification of the failsafe makes faults on purpose, or arms without power");
    }

    private static void Check(Procedure procedure, VerificationCeiling ceiling, IReadOnlyList<Channel> channels, List<string> reasons)
    {
        if (!(ceiling.Throttle > 0 && ceiling.Throttle <= 1))
            reasons.Add($"the verification's highest throttle is {ceiling.Throttle * 100} %; it must lie above 0 % and be at most 100 %");
        if (!(ceiling.Speed > 0 && double.IsFinite(ceiling.Speed)))
            reasons.Add($"the verification's highest speed is {ceiling.Speed} rpm; give a speed above 0 rpm");
        if (procedure.Repeat != 1)
            reasons.Add("a verification is done once");
        if (channels.All(c => c.Name != ChannelNames.RotorSpeed))
            reasons.Add($"no device supplies {ChannelNames.RotorSpeed}, without which nobody sees whether anything stops; add a tachometer");
        for (int i = 0; i < procedure.Steps.Count; i++)
        {
            Check(procedure.Steps[i], i, ceiling, reasons);
            // Power that came on behind a live pulse would be a jump that nobody was warned of.
            if (i > 0 && StepOrder.IsEnergised(procedure.Steps[i - 1].Kind) && procedure.Steps[i].Unpowered != procedure.Steps[i - 1].Unpowered)
                reasons.Add($"step {i + 1} of the verification {(procedure.Steps[i].Unpowered ? "takes" : "wants")} the power in the middle; arm anew");
        }
    }

    private static void Check(Step step, int place, VerificationCeiling ceiling, List<string> reasons)
    {
        if (!(Math.Abs(step.Throttle) <= ceiling.Throttle) || step.SecondThrottle != 0)
            reasons.Add($"step {place + 1} of the verification goes above its ceiling");
        if (step.Kind == StepKind.Provoke != step.Provocation is not null)
            reasons.Add($"step {place + 1} must say what it provokes, and no other step may");
        if (step.Provocation is not { } provocation)
            return;
        if (provocation.Evidence.Count is 0 or > Capacity.Conditions)
            reasons.Add($"step {place + 1} looks at {provocation.Evidence.Count} signs; it must be 1 to {Capacity.Conditions}");
        if (!(provocation.Allowed > TimeSpan.Zero && provocation.Allowed <= TimeSpan.FromMinutes(5)))
            reasons.Add($"step {place + 1} allows {provocation.Allowed.TotalSeconds} s for its evidence; it must lie above 0 s and be at most 300 s");
        bool expects = provocation.Manner is ProvocationManner.Awaited or ProvocationManner.ThroughGate;
        if (expects != provocation.Expected is not null)
            reasons.Add($"step {place + 1} must expect one cause where a person or the rotor provokes, and none where the host does");
    }
}
