namespace RigControl.Runtime.Tests.Support;

/// <summary>An interlock that decides and explains as the test says. Without a say it never objects.</summary>
internal sealed class ToyInterlock : IInterlock
{
    public Func<TimeSpan, Demand>? OnEvaluate { get; init; }

    public Func<string>? OnExplain { get; init; }

    public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory) =>
        OnEvaluate?.Invoke(input.Now) ?? Demand.Proceed(-1, 0, 0, 1, input.Now);

    public string Explain(in Demand demand) => OnExplain is { } say ? say() : $"the reading is {demand.Value:0}, the limit {demand.Limit:0}";

    /// <summary>Objects from a time on.</summary>
    public static ToyInterlock ObjectsFrom(TimeSpan from, int channel = 0) => new()
    {
        OnEvaluate = now => now < from
            ? Demand.Proceed(-1, 0, 0, 1, now)
            : Demand.Object(DemandAction.CutPower, 1, channel, 7, 5, -0.4, now - TimeSpan.FromMilliseconds(2)),
    };
}

/// <summary>Makes one interlock, as a plugin that is already in memory.</summary>
internal sealed class ToyInterlockPlugin(string kind, Func<InterlockContext, IInterlock> create) : IInterlockPlugin
{
    public string Kind => kind;

    public string Meaning => "An interlock of the test.";

    public string Requirement => "SAF-000";

    public DemandAction Action { get; init; } = DemandAction.CutPower;

    public bool AlwaysCutsPower { get; init; }

    public ResetPolicy Reset => ResetPolicy.Operator;

    public Type OptionsType => typeof(NoOptions);

    public IInterlock Create(object options, InterlockContext context) => create(context);
}
