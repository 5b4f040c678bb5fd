using RigControl.Model.Procedures;
using RigControl.Model.Records;

namespace RigControl.Kernel;

/// <summary>Whether a step's numbers can be run: times that fit into each other, thresholds that are numbers.</summary>
internal static class StepCheck
{
    public static void Check(IReadOnlyList<Step> steps, List<string> reasons)
    {
        for (int i = 0; i < steps.Count; i++)
        {
            string where = $"step {i + 1}";
            Times(steps[i], where, reasons);
            if (steps[i].Until.Count > Capacity.Conditions)
                reasons.Add($"{where} has {steps[i].Until.Count} conditions, but {Capacity.Conditions} is the most that one step can have");
            foreach (Condition condition in steps[i].Until)
                Check(condition, steps[i].Timeout, where, reasons);
            foreach (Condition sign in steps[i].Provocation?.Evidence ?? [])
                Check(sign, steps[i].Provocation!.Allowed, where, reasons);
        }
    }

    private static void Times(Step step, string where, List<string> reasons)
    {
        if (step.Timeout <= TimeSpan.Zero)
            reasons.Add($"{where} has no timeout above zero; without one it could go on for ever");
        if (step.Ramp < TimeSpan.Zero || step.Ramp > step.Timeout)
            reasons.Add($"{where} has a ramp of {step.Ramp.TotalSeconds} s, which must lie between 0 s and its timeout");
        if (step.For < TimeSpan.Zero || step.For > step.Timeout)
            reasons.Add($"{where} lasts {step.For?.TotalSeconds} s, which must lie between 0 s and its timeout");
    }

    private static void Check(Condition condition, TimeSpan timeout, string where, List<string> reasons)
    {
        if (!double.IsFinite(condition.Value))
            reasons.Add($"{where} compares {condition.Channel} with {condition.Value}, which is no number to compare with");
        if (condition.For < TimeSpan.Zero || condition.For > timeout)
        {
            reasons.Add($"{where} asks that {condition.Channel} holds for {condition.For.TotalSeconds} s, "
                + "which must lie between 0 s and its timeout");
        }

        if (condition.Kind == ConditionKind.SteadyWithin && condition.Value < 0)
            reasons.Add($"{where} asks that {condition.Channel} stays within {condition.Value}; a band cannot be negative");
        if (condition.Kind != ConditionKind.SteadyWithin && condition.Relative)
            reasons.Add($"{where} gives a share for {condition.Channel}; only a steady band can be a share");
    }
}
