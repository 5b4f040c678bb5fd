using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>energy-ceiling</c>.</summary>
public sealed class EnergyCeilingOptions
{
    /// <summary>Channel of the rotor's speed, in rpm. Default rotor.speed.</summary>
    [ChannelName, Meaning("Channel of the rotor's speed.")]
    public string Channel { get; set; } = ChannelNames.RotorSpeed;

    /// <summary>Inertia of everything that turns with it, in kg.m2, 1e-9 to 10; not below the article's rotor on rotor.speed. Required.</summary>
    [Quantity("kg.m2", 1e-9, 10), Meaning("Inertia of everything that turns with it, about its axis.")]
    public double Inertia { get; set; } = double.NaN;

    /// <summary>Highest energy allowed in the rotor, in J, 0.001 to 1000000. Required.</summary>
    [Quantity("J", 0.001, 1_000_000), Meaning("Highest energy allowed in the rotor.")]
    public double Limit { get; set; } = double.NaN;
}

/// <summary>Makes <c>energy-ceiling</c>.</summary>
public sealed class EnergyCeilingPlugin : InterlockPlugin<EnergyCeilingOptions>
{
    public override string Kind => "energy-ceiling";

    public override string Meaning => "The rotor stores no more energy than allowed.";

    public override string Requirement => "SAF-050";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(EnergyCeilingOptions options, InterlockContext context)
    {
        Rotor? rotor = context.Article.Rotor;
        if (rotor is not null && options.Channel == ChannelNames.RotorSpeed && !(options.Inertia >= rotor.Inertia))
        {
            throw new OptionException($"the inertia of {options.Inertia} kg.m2 of {context.Id} is below the {rotor.Inertia} kg.m2 of the rotor "
                + $"of {context.Article.Name} alone; write at least that");
        }

        return new EnergyCeiling(context.Require(options.Channel, "rpm"), options.Inertia, options.Limit, context.Action);
    }
}

/// <summary>Value and limit of its demands are joules, although the channel is in rpm.</summary>
internal sealed class EnergyCeiling(Channel channel, double inertia, double limit, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort TooMuch = 1;

    private const double RadPerSecond = Math.PI / 30; // of one rpm

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        Extreme fastest = Extreme.Of(entry);
        double speed = fastest.Value * RadPerSecond;
        double energy = 0.5 * inertia * speed * speed;
        double margin = Margin.Under(energy, limit);
        return energy <= limit ? Proceed(energy, limit, margin, fastest.At) : Object(TooMuch, energy, limit, margin, fastest.At);
    }

    protected override string Describe(in Demand demand)
    {
        double speed = Math.Sqrt(2 * demand.Value / inertia) / RadPerSecond;
        string stores = $"at {Words.Quantity(speed, "rpm")} the rotor stores {Words.Quantity(demand.Value, demand.Limit, "J")}";
        return demand.Reason == 0
            ? $"{stores}, within the ceiling of {Words.Quantity(demand.Limit, "J")}"
            : $"{stores}, above the ceiling of {Words.Quantity(demand.Limit, "J")}";
    }
}
