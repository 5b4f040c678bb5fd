namespace RigControl.Kernel.Tests.Support;

/// <summary>An interlock that says what the test tells it, and counts how often it was asked.</summary>
internal sealed class ScriptedInterlock : IInterlock
{
    /// <summary>What it asks for in the next scan.</summary>
    public DemandAction Action { get; set; } = DemandAction.Proceed;

    /// <summary>Its reason for an objection.</summary>
    public ushort Reason { get; set; } = 1;

    /// <summary>The reading that it says decided.</summary>
    public double Value { get; set; }

    public bool Throws { get; set; }

    public int Calls { get; private set; }

    /// <summary>What it was told in the latest scan.</summary>
    public (TimeSpan Now, RigState State, int Step, TimeSpan TimeInStep, double Throttle) Asked { get; private set; }

    /// <summary>Whether the receiver drove in the latest scan.</summary>
    public bool Gated { get; private set; }

    public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
    {
        Calls++;
        memory.Flags++;
        Asked = (input.Now, input.State, input.Step, input.TimeInStep, input.Throttle);
        Gated = input.Gate;
        if (Throws)
            throw new InvalidOperationException("planted");
        return Action == DemandAction.Proceed
            ? Demand.Proceed(0, Value, 1, 1, input.Now)
            : Demand.Object(Action, Reason, 0, Value, 1, -1, input.Now);
    }

    public string Explain(in Demand demand) => $"scripted reason {demand.Reason}";
}
