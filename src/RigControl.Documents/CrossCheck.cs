using RigControl.Documents.Procedures;
using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Documents;

/// <summary>Checks of a procedure against what stands in other files, each problem at its place in the procedure.</summary>
public static class CrossCheck
{
    /// <summary>Every interlock that the procedure names is in the rig, and those of named steps are named by a step.</summary>
    public static IReadOnlyList<Problem> Procedure(Procedure procedure, Places places, RigDefinition rig)
    {
        var problems = new ProblemList(places.File);
        string[] ids = [.. rig.Interlocks.Select(i => i.Id)];
        foreach ((string name, Place place) in NamedInterlocks(procedure, places))
        {
            if (!ids.Contains(name))
                problems.Add(place, $"the rig {rig.Name} has no interlock `{name}`", Words.Instead(name, ids));
        }
        string[] inSteps = [.. procedure.Steps.SelectMany(s => s.Interlocks)];
        foreach (InterlockDefinition idle in rig.Interlocks.Where(i => i.Scope == InterlockScope.NamedSteps && !inSteps.Contains(i.Id)))
        {
            int item = procedure.Requires.ToList().IndexOf(idle.Id);
            if (item >= 0)
                problems.Add(places.Of("requires", item), $"`{idle.Id}` counts only in steps that name it, and none does",
                    $"write `interlocks: [{idle.Id}]` in the steps it should watch");
        }
        return problems.Sorted();
    }

    /// <summary>The article can do what the procedure asks: only a two-way controller, and a servo with its stop between its ends, go below stop.</summary>
    public static IReadOnlyList<Problem> Procedure(Procedure procedure, Places places, Article article)
    {
        var problems = new ProblemList(places.File);
        for (int i = 0; i < procedure.Steps.Count; i++)
        {
            Step step = procedure.Steps[i];
            if (step.Kind != StepKind.SpinUp)
                continue;
            Place place = places.Of("steps", step.Item, step.Written, "throttle"), second = places.Of("steps", step.Item, step.Written, "second");
            if (step.Throttle < 0)
                Backwards(article.Controller, $"the controller of {article.Name}", place, problems);
            if (step.SecondThrottle != 0 && article.SecondController is null)
                problems.Add(second, $"{article.Name} has no second controller", "describe it under `second-controller:` in the article, or leave `second` out");
            else if (step.SecondThrottle < 0)
                Backwards(article.SecondController!, $"the second controller of {article.Name}", second, problems);
        }
        return problems.Sorted();
    }

    private static void Backwards(ControllerProfile controller, string who, Place place, ProblemList problems)
    {
        if (controller.GoesBelowStop)
            return;
        string why = controller.Mode == ControllerMode.Servo ? "is a servo that stops at its end and goes one way only" : $"is {Words.Of(controller.Mode)} and cannot be driven backwards";
        problems.Add(place, $"{who} {why}", "write a level above `0 %`");
    }

    /// <summary>
    /// Every channel of a condition is supplied, in the unit that the condition was converted into. To be asked once the devices
    /// are opened; without it a threshold in rpm could be compared with a channel in rad/s.
    /// </summary>
    public static IReadOnlyList<Problem> Procedure(Procedure procedure, Places places, IReadOnlyList<Channel> channels)
    {
        var problems = new ProblemList(places.File);
        for (int i = 0; i < procedure.Steps.Count; i++)
        for (int j = 0; j < procedure.Steps[i].Until.Count; j++)
        {
            Step step = procedure.Steps[i];
            object[] path = ["steps", step.Item, step.Written, "until", j];
            Channels(step.Until[j], path, places, channels, problems);
        }
        return problems.Sorted();
    }

    private static void Channels(Condition condition, object[] path, Places places, IReadOnlyList<Channel> channels, ProblemList problems)
    {
        Channel? channel = channels.FirstOrDefault(c => c.Name == condition.Channel);
        if (channel is null)
        {
            string[] names = [.. channels.Select(c => c.Name)];
            problems.Add(places.Of([.. path, "channel"]), $"no device supplies the channel {condition.Channel}", Words.Instead(condition.Channel, names));
            return;
        }
        string key = Words.Of(condition.Kind);
        string? held = HeldUnit(condition, places.TextAt([.. path, key]));
        if (held is not null && held != channel.Declaration.Unit)
            problems.Add(places.Of([.. path, key]), $"{condition.Channel} is in {channel.Declaration.Unit}, but the condition is in {held}",
                $"write the value in {Words.Either(Units.Accepted(channel.Declaration.Unit))}");
        else if (!CanHold(condition, channel.Declaration))
            problems.Add(places.Of([.. path, key]), $"{condition.Channel} reads from {Quantity.Show(channel.Declaration.Minimum)} to {Quantity.Show(channel.Declaration.Maximum)} {channel.Declaration.Unit} and is never {key} {Quantity.Show(condition.Value)}",
                "write a value that it can pass");
    }

    // A reading outside of the channel's range is Bad, and no Bad reading ends a step.
    private static bool CanHold(Condition condition, ChannelDeclaration declaration) => condition.Kind switch
    {
        ConditionKind.Below => condition.Value > declaration.Minimum,
        ConditionKind.Above => condition.Value < declaration.Maximum,
        _ => true,
    };

    // A share of the value has no unit of its own. A coast-down without `until` has its default, in rpm.
    private static string? HeldUnit(Condition condition, string? text)
    {
        if (condition.Relative)
            return null;
        string unit = text is null ? "rpm" : Quantity.Parse(text)?.Unit ?? "";
        return Units.Canonical(unit) is null ? null : ThresholdReader.UnitOf(condition.Channel, unit);
    }

    private static IEnumerable<(string Name, Place Place)> NamedInterlocks(Procedure procedure, Places places)
    {
        for (int j = 0; j < procedure.Requires.Count; j++)
            yield return (procedure.Requires[j], places.Of("requires", j));
        for (int i = 0; i < procedure.Steps.Count; i++)
        {
            Step step = procedure.Steps[i];
            for (int j = 0; j < step.Permissives.Count; j++)
                yield return (step.Permissives[j], places.Of("steps", step.Item, step.Written, "requires", j));
            for (int j = 0; j < step.Interlocks.Count; j++)
                yield return (step.Interlocks[j], places.Of("steps", step.Item, step.Written, "interlocks", j));
        }
    }
}
