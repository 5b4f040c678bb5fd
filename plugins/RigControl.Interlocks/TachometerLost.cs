using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>tachometer-lost</c>.</summary>
public sealed class TachometerLostOptions
{
    /// <summary>Channel of the speed, in rpm. Default rotor.speed.</summary>
    [ChannelName, Meaning("Channel of the speed.")]
    public string Speed { get; set; } = ChannelNames.RotorSpeed;

    /// <summary>Channel of the throttle as it goes out, in %. Default output.throttle.</summary>
    [ChannelName, Meaning("Channel of the throttle as it goes out.")]
    public string Throttle { get; set; } = ChannelNames.OutputThrottle;

    /// <summary>Throttle from which the rotor counts as driven, in %, 0.1 to 100. Required.</summary>
    [Quantity("%", 0.1, 100), Meaning("Throttle from which the rotor counts as driven.")]
    public double From { get; set; } = double.NaN;

    /// <summary>Speed that every driven rotor reaches, in rpm, 1 to 200000. Required.</summary>
    [Quantity("rpm", 1, 200_000), Meaning("Speed that every driven rotor reaches in that time.")]
    public double Below { get; set; } = double.NaN;

    /// <summary>Longest time for which a driven rotor may read slower than that, in s, 0.01 to 10. Required.</summary>
    [Quantity("s", 0.01, 10), Meaning("Longest time for which a driven rotor may read slower than that.")]
    public double Within { get; set; } = double.NaN;
}

/// <summary>Makes <c>tachometer-lost</c>.</summary>
public sealed class TachometerLostPlugin : InterlockPlugin<TachometerLostOptions>
{
    public override string Kind => "tachometer-lost";

    public override string Meaning => "A rotor that is driven is seen to turn.";

    public override string Requirement => "SAF-088";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(TachometerLostOptions options, InterlockContext context) => new TachometerLost(
        context.Require(options.Speed, "rpm"), context.Require(options.Throttle, "%"), options, context.Article.Controller.Mode, context.Action);
}

/// <summary>
/// A tachometer that gives no pulses reads like a rotor that stands, and every limit on the speed then holds. What is driven and
/// does not turn is a fault whichever it is: a lead that came off, a rotor that is held, a controller that drives nothing.
/// </summary>
internal sealed class TachometerLost(Channel speed, Channel throttle, TachometerLostOptions options, ControllerMode mode, DemandAction action)
    : PairInterlock(speed, throttle, action)
{
    public const ushort NotSeenToTurn = 1;

    private readonly TimeSpan _within = TimeSpan.FromSeconds(options.Within);

    protected override Demand Judge(in ImageEntry speed, in ImageEntry throttle, in InterlockInput input, ref InterlockMemory memory)
    {
        Extreme fastest = Extreme.Of(speed);
        // A servo goes to a place and turns nothing; with the power kept off on purpose the pulses drive nothing.
        bool driven = mode != ControllerMode.Servo && !input.Unpowered && Extreme.Of(throttle).Size >= options.From;
        bool lasted = Lasting.Reached(driven && !(fastest.Size >= options.Below), input.Now, input.Now, _within, ref memory);
        double margin = driven ? Margin.Over(fastest.Size, options.Below) : 1;
        return lasted
            ? Object(NotSeenToTurn, First, fastest.Value, options.Below, margin, fastest.At)
            : Demand.Proceed(First.Index, fastest.Value, options.Below, Margin.Allowed(margin), fastest.At);
    }

    protected override string Describe(in Demand demand) => demand.Reason == 0
        ? $"{First.Name} is what throttle and time allow"
        : $"{Words.Reading(First, Math.Abs(demand.Value), demand.Limit)} after {Words.Duration(_within)} of drive, "
            + $"{Words.Quantity(demand.Limit, "rpm")} at least is due: look whether the tachometer lost its mark, the rotor is held or nothing drives it";
}
