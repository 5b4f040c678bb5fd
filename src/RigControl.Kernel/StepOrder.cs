using RigControl.Model.Procedures;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>Which step may follow which, so that every step has a way out and nothing energised comes last.</summary>
internal static class StepOrder
{
    public static void Check(IReadOnlyList<Step> steps, Article article, List<string> reasons)
    {
        if (steps.Count == 0)
            reasons.Add("the procedure has no steps");
        StepKind before = StepKind.Rest;
        for (int i = 0; i < steps.Count; i++)
        {
            if (!MayFollow(before, steps[i].Kind))
                reasons.Add($"step {i + 1} cannot be {Word(steps[i].Kind)} after {Word(before)}");
            CheckLevels(steps[i], i, article, reasons);
            CheckEnd(steps[i], i, reasons);
            before = steps[i].Kind;
        }

        if (before == StepKind.Provoke)
            reasons.Add("the last step provokes; end with rest, so that the reset after it is part of the verification");
        if (IsEnergised(before))
            reasons.Add($"the last step is {Word(before)}; end with coast-down or rest, so that nothing is left energised");
    }

    private static void CheckLevels(Step step, int place, Article article, List<string> reasons)
    {
        CheckLevel(step.Throttle, article.Controller, place, "a throttle", "this controller", reasons);
        if (article.SecondController is { } second)
            CheckLevel(step.SecondThrottle, second, place, "a level of the second output", "the second controller", reasons);
        else if (step.SecondThrottle != 0)
            reasons.Add($"step {place + 1} drives a second output, but the article says nothing of a second controller");
        if (step.Kind is not (StepKind.SpinUp or StepKind.Hold) && step.SecondThrottle != 0)
            reasons.Add($"step {place + 1} has a level of the second output, which only spin-up and hold have");
    }

    private static void CheckLevel(double level, ControllerProfile controller, int place, string what, string who, List<string> reasons)
    {
        double lowest = controller.GoesBelowStop ? -1 : 0;
        if (!(level >= lowest && level <= 1))
            reasons.Add($"step {place + 1} asks for {what} of {level * 100:0.#} %, but {who} takes {lowest * 100:0} % to 100 %");
    }

    private static void CheckEnd(Step step, int place, List<string> reasons)
    {
        bool asks = step.Kind is StepKind.Ask or StepKind.Trial;
        if (step.Kind is not (StepKind.Arm or StepKind.SpinUp or StepKind.Provoke) && !asks && step.For is null && step.Until.Count == 0)
            reasons.Add($"step {place + 1} has no way out; give it a time or a condition");
        if (asks != step.Question is not null)
            reasons.Add($"step {place + 1} must have a question if it asks, and none otherwise");
    }

    private static bool MayFollow(StepKind before, StepKind next) => next switch
    {
        StepKind.SpinUp => before is StepKind.Arm or StepKind.SpinUp or StepKind.Hold,
        StepKind.Hold => before is StepKind.SpinUp or StepKind.Hold,
        StepKind.Gate => before is StepKind.Arm,
        StepKind.Provoke => before is StepKind.Arm or StepKind.SpinUp or StepKind.Gate,
        StepKind.CoastDown => before is StepKind.SpinUp or StepKind.Hold or StepKind.Gate,
        _ => !IsEnergised(before),
    };

    /// <summary>Whether a step leaves the outputs live, or about to be.</summary>
    public static bool IsEnergised(StepKind kind) => kind is StepKind.Arm or StepKind.SpinUp or StepKind.Hold or StepKind.Gate;

    private static string Word(StepKind kind) => kind switch
    {
        StepKind.SpinUp => "spin-up",
        StepKind.CoastDown => "coast-down",
        StepKind.Arm => "arm",
        StepKind.Hold => "hold",
        StepKind.Observe => "observe",
        StepKind.Ask => "ask",
        StepKind.Trial => "trial",
        StepKind.Gate => "gate",
        StepKind.Provoke => "provoke",
        _ => "rest",
    };
}
