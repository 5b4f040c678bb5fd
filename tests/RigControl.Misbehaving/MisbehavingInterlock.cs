using RigControl.Contracts;
using RigControl.Model.Rig;

namespace RigControl.Misbehaving;

/// <summary>What the interlock does when its time has come.</summary>
public enum InterlockMischief
{
    Nothing,

    /// <summary>Waits for ever.</summary>
    Hangs,

    /// <summary>Turns for ever without calling anything, which nothing can interrupt.</summary>
    Spins,

    /// <summary>Trips, and hangs when it is asked why.</summary>
    HangsInExplain,
    Throws,
}

/// <summary>Options of <c>misbehaving-interlock</c>.</summary>
public sealed class MisbehavingInterlockOptions
{
    /// <summary>What it does. Default nothing.</summary>
    [Meaning("What it does.")]
    public InterlockMischief Mischief { get; set; }

    /// <summary>Session time from which it does so, s, 0 to 3600. Default 0.</summary>
    [Quantity("s", 0, 3600), Meaning("Session time from which it does so.")]
    public double From { get; set; }
}

/// <summary>Makes <c>misbehaving-interlock</c>.</summary>
public sealed class MisbehavingInterlockPlugin : InterlockPlugin<MisbehavingInterlockOptions>
{
    public override string Kind => "misbehaving-interlock";

    public override string Meaning => "Does what a good interlock never does.";

    public override string Requirement => "SAF-000";

    protected override IInterlock Create(MisbehavingInterlockOptions options, InterlockContext context) => new MisbehavingInterlock(options);
}

internal sealed class MisbehavingInterlock(MisbehavingInterlockOptions options) : IInterlock
{
    private volatile int _turns;

    public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
    {
        Demand fine = Demand.Proceed(-1, 0, 0, 1, input.Now);
        if (input.Now.TotalSeconds < options.From)
            return fine;
        switch (options.Mischief)
        {
            case InterlockMischief.Hangs:
                Hang.ForEver();
                break;
            case InterlockMischief.Spins:
                while (true)
                    _turns++;
            case InterlockMischief.HangsInExplain:
                return Demand.Object(DemandAction.CutPower, 1, -1, 1, 0, -1, input.Now);
            case InterlockMischief.Throws:
                throw new InvalidOperationException("an interlock that fails");
        }

        return fine;
    }

    public string Explain(in Demand demand)
    {
        if (options.Mischief == InterlockMischief.HangsInExplain)
            Hang.ForEver();
        return "nothing is wrong";
    }
}
