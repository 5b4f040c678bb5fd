using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>Makes a <see cref="Configuration"/>, or says everything that stands against it.</summary>
public static class ConfigurationCompiler
{
    /// <param name="rig">The rig as its file says.</param>
    /// <param name="article">The article as its file says.</param>
    /// <param name="procedure">The procedure as its file says.</param>
    /// <param name="channels">In the order of the input image.</param>
    /// <param name="interlocks">In the order of the rig file.</param>
    /// <param name="lowered">Makes an interlock with a lower limit; only asked by a verification.</param>
    /// <exception cref="ConfigurationException">Every reason at once, each a sentence.</exception>
    public static Configuration Compile(
        RigDefinition rig, Article article, Procedure procedure, IReadOnlyList<Channel> channels, IReadOnlyList<BoundInterlock> interlocks,
        Func<LoweredLimit, IInterlock?>? lowered = null)
    {
        List<string> reasons = [];
        Bound(reasons, channels.Count, InputImage.Capacity, "channels");
        Bound(reasons, interlocks.Count, Capacity.Interlocks, "interlocks");
        Bound(reasons, procedure.Steps.Count, Capacity.Steps, "steps");
        if (reasons.Count > 0)
            throw new ConfigurationException(reasons);

        uint required = Mask(procedure.Requires, interlocks, "the procedure requires", reasons);
        List<CompiledStep> steps = [];
        for (int i = 0; i < procedure.Steps.Count; i++)
        {
            CompiledStep step = Compile(procedure.Steps[i], i, channels, interlocks, required, reasons);
            steps.Add(step with { Provocation = ProvocationCompiler.Compile(procedure.Steps[i], i, channels, interlocks, lowered, reasons) });
        }

        RigCheck.Check(rig, reasons);
        RigCheck.Check(article, reasons);
        RigCheck.Check(channels, interlocks, reasons);
        if (procedure.Repeat is < 1 or > 1000)
            reasons.Add($"the procedure repeats its steps {procedure.Repeat} times; it must be 1 to 1000 times");
        StepOrder.Check(procedure.Steps, article, reasons);
        GateCheck.Check(procedure.Steps, channels, reasons);
        VerificationCheck.Check(procedure, channels, reasons);
        StepCheck.Check(procedure.Steps, reasons);
        if (reasons.Count > 0)
            throw new ConfigurationException(reasons);
        return new Configuration(new ConfigurationParts(rig, article, procedure, channels, interlocks, steps));
    }

    private static void Bound(List<string> reasons, int count, int most, string what)
    {
        if (count > most)
            reasons.Add($"there are {count} {what}, but {most} is the most that one rig can have");
    }

    private static CompiledStep Compile(
        Step step, int place, IReadOnlyList<Channel> channels, IReadOnlyList<BoundInterlock> interlocks, uint required, List<string> reasons)
    {
        string where = $"step {place + 1}";
        uint permissives = Mask(step.Permissives, interlocks, $"{where} requires", reasons);
        if (step.Kind is StepKind.Arm)
            permissives |= required;
        uint counting = Mask(step.Interlocks, interlocks, $"{where} names", reasons);
        if (step.Kind is StepKind.SpinUp or StepKind.Hold or StepKind.CoastDown or StepKind.Gate or StepKind.Provoke)
            counting |= required;
        CompiledCondition[] until = [.. step.Until.Select(c => Compile(c, where, channels, reasons))];
        return new CompiledStep(
            step.Kind, step.Throttle, step.SecondThrottle, step.Ramp, step.For, step.Timeout, until, counting, permissives, step.Question, step.Marks)
        {
            Hand = step.Hand, Written = step.Written, Unpowered = step.Unpowered,
        };
    }

    internal static CompiledCondition Compile(Condition condition, string where, IReadOnlyList<Channel> channels, List<string> reasons)
    {
        Channel? channel = channels.FirstOrDefault(c => c.Name == condition.Channel);
        if (channel is null)
            reasons.Add($"{where} waits for the channel {condition.Channel}, which no device supplies; there are {string.Join(", ", channels.Select(c => c.Name))}");
        return new CompiledCondition(channel?.Index ?? 0, condition.Kind, condition.Value, condition.Relative, condition.For);
    }

    private static uint Mask(IReadOnlyList<string> names, IReadOnlyList<BoundInterlock> interlocks, string what, List<string> reasons)
    {
        uint mask = 0;
        List<string> ids = [.. interlocks.Select(i => i.Id)];
        foreach (string name in names)
        {
            int place = ids.IndexOf(name);
            if (place >= 0)
                mask |= 1u << place;
            else
                reasons.Add($"{what} the interlock {name}, which the rig does not have; it has {(ids.Count == 0 ? "none" : string.Join(", ", ids))}");
        }

        return mask;
    }
}

/// <summary>What a configuration is made from.</summary>
internal sealed record ConfigurationParts(
    RigDefinition Rig, Article Article, Procedure Procedure, IReadOnlyList<Channel> Channels, IReadOnlyList<BoundInterlock> Interlocks,
    IReadOnlyList<CompiledStep> Steps);

/// <summary>Why rig, article and procedure do not fit together.</summary>
public sealed class ConfigurationException(IReadOnlyList<string> reasons) : Exception(string.Join("; ", reasons))
{
    /// <summary>Each a sentence to act on.</summary>
    public IReadOnlyList<string> Reasons { get; } = reasons;
}
