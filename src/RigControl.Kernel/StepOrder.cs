using RigControl.Model.Procedures;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>Which step may follow which, so that every step has a way out and nothing energised comes last.</summary>
internal static class StepOrder
{
    public static void Check(IReadOnlyList<Step> steps, ControllerMode mode, List<string> reasons)
    {
        if (steps.Count == 0)
            reasons.Add("the procedure has no steps");
        StepKind before = StepKind.Rest;
        for (int i = 0; i < steps.Count; i++)
        {
            if (!MayFollow(before, steps[i].Kind))
                reasons.Add($"step {i + 1} cannot be {Word(steps[i].Kind)} after {Word(before)}");
            CheckLevel(steps[i], i, mode, reasons);
            before = steps[i].Kind;
        }

        if (before is StepKind.Arm or StepKind.SpinUp or StepKind.Hold)
            reasons.Add($"the last step is {Word(before)}; end with coast-down or rest, so that nothing is left energised");
    }

    private static void CheckLevel(Step step, int place, ControllerMode mode, List<string> reasons)
    {
        double lowest = mode == ControllerMode.TwoWay ? -1 : 0;
        if (!(step.Throttle >= lowest && step.Throttle <= 1))
            reasons.Add($"step {place + 1} asks for a throttle of {step.Throttle * 100:0.#} %, but this controller takes {lowest * 100:0} % to 100 %");
        bool asks = step.Kind is StepKind.Ask or StepKind.Trial;
        if (step.Kind is not (StepKind.Arm or StepKind.SpinUp) && !asks && step.For is null && step.Until.Count == 0)
            reasons.Add($"step {place + 1} has no way out; give it a time or a condition");
        if (asks != step.Question is not null)
            reasons.Add($"step {place + 1} must have a question if it asks, and none otherwise");
    }

    private static bool MayFollow(StepKind before, StepKind next) => next switch
    {
        StepKind.SpinUp => before is StepKind.Arm or StepKind.SpinUp or StepKind.Hold,
        StepKind.Hold => before is StepKind.SpinUp or StepKind.Hold,
        StepKind.CoastDown => before is StepKind.SpinUp or StepKind.Hold,
        _ => before is not (StepKind.Arm or StepKind.SpinUp or StepKind.Hold),
    };

    private static string Word(StepKind kind) => kind switch
    {
        StepKind.SpinUp => "spin-up",
        StepKind.CoastDown => "coast-down",
        StepKind.Arm => "arm",
        StepKind.Hold => "hold",
        StepKind.Observe => "observe",
        StepKind.Ask => "ask",
        StepKind.Trial => "trial",
        _ => "rest",
    };
}
