using RigControl.Model.Procedures;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>Whether a step has done what it is for.</summary>
internal static class Conditions
{
    /// <summary>Time passed, or any condition met; for a rise never before its ramp is done, for a question never by itself.</summary>
    public static bool IsDone(CompiledStep step, ref KernelState state, in InputImage image)
    {
        if (step.Question is not null)
            return false;
        bool met = false;
        for (int i = 0; i < step.Until.Length; i++)
            met |= Holds(step.Until[i], ref state.Conditions[i], state.Now, image);
        TimeSpan inStep = state.Now - state.StepSince;
        if (step.Kind == StepKind.SpinUp && (inStep < step.Ramp || state.Throttle != step.Throttle || state.SecondThrottle != step.SecondThrottle))
            return false;
        return met || inStep >= step.For || (step.For is null && step.Until.Length == 0);
    }

    /// <summary>Whether all of a provocation's signs are there at once. Every one is asked, so that each keeps its time.</summary>
    public static bool AllHold(CompiledCondition[] signs, ref KernelState state, in InputImage image)
    {
        bool all = true;
        for (int i = 0; i < signs.Length; i++)
            all &= Holds(signs[i], ref state.Conditions[i], state.Now, image);
        return all;
    }

    private static bool Holds(CompiledCondition condition, ref ConditionSlot slot, TimeSpan now, in InputImage image)
    {
        ref readonly ImageEntry entry = ref image[condition.Channel];
        bool holds = entry.IsUsable && condition.Kind switch
        {
            ConditionKind.Below => entry.Maximum < condition.Value,
            ConditionKind.Above => entry.Minimum > condition.Value,
            _ => StaysWithin(condition, ref slot, entry),
        };
        if (holds && !slot.Holds)
            slot.Since = now;
        slot.Holds = holds;
        return holds && now - slot.Since >= condition.For;
    }

    // All values since the band was begun; leaving it begins it again, so that a slow climb never counts as steady.
    private static bool StaysWithin(CompiledCondition condition, ref ConditionSlot slot, in ImageEntry entry)
    {
        double minimum = slot.Holds && slot.Minimum < entry.Minimum ? slot.Minimum : entry.Minimum;
        double maximum = slot.Holds && slot.Maximum > entry.Maximum ? slot.Maximum : entry.Maximum;
        double middle = (minimum + maximum) / 2;
        double band = condition.Relative ? condition.Value * (middle < 0 ? -middle : middle) : condition.Value;
        (slot.Minimum, slot.Maximum) = (minimum, maximum);
        return maximum - minimum <= band;
    }
}
