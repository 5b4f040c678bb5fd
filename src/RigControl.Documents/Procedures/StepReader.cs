using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Documents.Procedures;

/// <summary>Reads one step: its kind, then what that kind takes.</summary>
internal static class StepReader
{
    public static readonly Bounds Throttle = new("%", -100, 100);
    public static readonly Bounds Ramp = new("s", 0, 600);
    public static readonly Bounds Duration = new("s", 0.01, 86_400);
    private static readonly Bounds Within = new("s", 1, 600);
    private static readonly Bounds Patience = new("s", 1, 86_400);

    // Time enough to press the key after looking once more, and too short to walk away.
    private static readonly TimeSpan WithinDefault = TimeSpan.FromSeconds(10);
    // A person answers within the hour, or has left.
    private static readonly TimeSpan PatienceDefault = TimeSpan.FromHours(1);

    /// <summary>How much later than its own time a step times out: late scans must not make a timeout of an ordinary end.</summary>
    public static readonly TimeSpan Grace = TimeSpan.FromSeconds(1);

    // Below a turn a second a pulse tachometer has little left to say.
    private static readonly Condition RunDown = new(ChannelNames.RotorSpeed, ConditionKind.Below, 60, false, TimeSpan.Zero);

    /// <summary>The kind that a step's one key names, for a sweep the one it begins with; null where it names none.</summary>
    public static StepKind? KindOf(Node node) => node is not MapNode { Entries: [var entry] } ? null
        : entry.Key == SweepReader.Key ? StepKind.SpinUp : Words<StepKind>.Find(entry.Key);

    /// <param name="before">The step before, whose levels a hold keeps; null at the beginning.</param>
    /// <returns>One step; several for a sweep; none where the item cannot be read.</returns>
    public static IReadOnlyList<Step> Read(Node node, Step? before, ProblemList problems)
    {
        if (node is not MapNode { Entries: [var entry] })
            problems.Add(node.Place, "a step is one kind with what it takes", "write `- hold: { for: 5 s }`, one kind to an item");
        else if (KindOf(node) is not { } kind)
            problems.Add(entry.KeyPlace, $"there is no step {Words.Quote(entry.Key)}", Words.Instead(entry.Key, [.. Words<StepKind>.All, SweepReader.Key]));
        else if (Fields.Of(WithEmptyAllowed(entry), $"the {entry.Key} step", problems) is { } fields)
            return Read(entry.Key, kind, fields, before);
        return [];
    }

    private static IReadOnlyList<Step> Read(string key, StepKind kind, Fields fields, Step? before)
    {
        IReadOnlyList<Step> steps = key == SweepReader.Key ? SweepReader.Read(fields) : [One(kind, fields, before)];
        IReadOnlyList<string> permissives = kind is StepKind.Arm or StepKind.SpinUp or StepKind.Hold or StepKind.Gate ? fields.Names("requires", Capacity.Interlocks) : [];
        IReadOnlyList<string> interlocks = kind is StepKind.Arm or StepKind.SpinUp or StepKind.Hold or StepKind.CoastDown or StepKind.Gate
            ? fields.Names("interlocks", Capacity.Interlocks) : [];
        bool marks = WordFields.Switch(fields.Optional("mark"), fields.Problems) ?? false;
        fields.Close();
        return [.. steps.Select(s => s with { Permissives = permissives, Interlocks = interlocks, Marks = marks, Written = key })];
    }

    private static Step One(StepKind kind, Fields fields, Step? before) => kind switch
    {
        StepKind.Arm => new() { Kind = kind, Timeout = fields.OptionalTime("within", Within) ?? WithinDefault },
        StepKind.SpinUp => SpinUp(fields),
        StepKind.Hold => Wait(fields, kind) with { Throttle = before?.Throttle ?? 0, SecondThrottle = before?.SecondThrottle ?? 0 },
        StepKind.CoastDown => CoastDown(fields),
        StepKind.Ask => Question(fields, kind, QuestionReader.Ask(fields)),
        StepKind.Trial => Question(fields, kind, QuestionReader.Trial(fields)),
        _ => Wait(fields, kind),
    };

    private static Step Question(Fields fields, StepKind kind, Question? question) =>
        new() { Kind = kind, Question = question, Timeout = fields.OptionalTime("within", Patience) ?? PatienceDefault };

    private static Step SpinUp(Fields fields)
    {
        double? throttle = fields.Quantity("throttle", Throttle);
        double? second = fields.OptionalQuantity("second", Throttle);
        TimeSpan? ramp = fields.Time("ramp", Ramp);
        TimeSpan? timeout = fields.Time("timeout", Duration);
        if (throttle == 0 && second is null or 0)
            fields.Problems.Add(fields.PlaceOf("throttle"), "a spin-up to no throttle does not rise", "write the level to reach, or use a coast-down");
        if (ramp >= timeout)
            fields.Problems.Add(fields.PlaceOf("ramp"), "the ramp is not over before the step times out", "write a shorter `ramp` or a longer `timeout`");
        IReadOnlyList<Condition> until = ConditionReader.ReadAll(fields.Optional("until"), ramp < timeout ? timeout - ramp : null, fields.Problems);
        if (!fields.Has("until"))
            fields.Problems.Add(fields.Place, "the spin-up step has no way to end", "write `until:` and a condition");
        return new()
        {
            Kind = StepKind.SpinUp,
            Throttle = (throttle ?? 0) / 100,
            SecondThrottle = (second ?? 0) / 100,
            Ramp = ramp ?? TimeSpan.Zero,
            Until = until,
            Timeout = timeout ?? TimeSpan.Zero,
        };
    }

    /// <summary>A hold or a rest: for a time, until a condition, or whichever comes first.</summary>
    private static Step Wait(Fields fields, StepKind kind)
    {
        TimeSpan? time = fields.OptionalTime("for", Duration);
        TimeSpan? timeout = fields.Has("for") || !fields.Has("until")
            ? fields.OptionalTime("timeout", Duration) ?? time + Grace
            : fields.Time("timeout", Duration);
        if (time >= timeout)
            fields.Problems.Add(fields.PlaceOf("for"), "the step times out before its time is over", "write a `timeout` longer than `for`");
        IReadOnlyList<Condition> until = ConditionReader.ReadAll(fields.Optional("until"), time ?? timeout, fields.Problems);
        if (!fields.Has("for") && !fields.Has("until"))
            fields.Problems.Add(fields.Place, $"{fields.Owner} has no way to end", "write `for:` and a time, or `until:` and a condition");
        return new() { Kind = kind, For = time, Until = until, Timeout = timeout ?? TimeSpan.Zero };
    }

    private static Step CoastDown(Fields fields)
    {
        TimeSpan? timeout = fields.Time("timeout", Duration);
        Node? until = fields.Optional("until");
        return new()
        {
            Kind = StepKind.CoastDown,
            Until = until is null ? [RunDown] : ConditionReader.ReadAll(until, timeout, fields.Problems),
            Timeout = timeout ?? TimeSpan.Zero,
        };
    }

    // `- arm:` with nothing after it is an arm step that takes every default.
    private static Node WithEmptyAllowed(Entry entry) =>
        entry.Value is TextNode { IsNothing: true } nothing ? new MapNode(nothing.Place, []) : entry.Value;
}
