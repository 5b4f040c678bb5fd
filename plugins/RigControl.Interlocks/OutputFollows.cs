using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>output-follows</c>.</summary>
public sealed class OutputFollowsOptions
{
    /// <summary>Channel of the pulse as it was measured on its way out, in us. Default output.pulse.</summary>
    [ChannelName, Meaning("Channel of the pulse as it was measured on its way out.")]
    public string Channel { get; set; } = ChannelNames.OutputPulse;

    /// <summary>Largest difference from the pulse demanded that may last, in us, 0.1 to 1000; on a ramp the pulse trails by what the ramp changes in the delay. Required.</summary>
    [Quantity("us", 0.1, 1000), Meaning("Largest difference from the pulse demanded that may last.")]
    public double Tolerance { get; set; } = double.NaN;

    /// <summary>Time in which the pulse must follow, in s, 0.001 to 2. Required.</summary>
    [Quantity("s", 0.001, 2), Meaning("Time in which the pulse must follow.")]
    public double Within { get; set; } = double.NaN;
}

/// <summary>Makes <c>output-follows</c>.</summary>
public sealed class OutputFollowsPlugin : InterlockPlugin<OutputFollowsOptions>
{
    public override string Kind => "output-follows";

    public override string Meaning => "The pulse that goes out is the one that was demanded.";

    public override string Requirement => "SAF-060";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(OutputFollowsOptions options, InterlockContext context) => new OutputFollows(
        context.Require(options.Channel, "us"), context.Article.Controller, options.Tolerance, TimeSpan.FromSeconds(options.Within), context.Action);
}

/// <summary>Value of its demands is the difference from the pulse demanded, in us.</summary>
internal sealed class OutputFollows(Channel channel, ControllerProfile controller, double tolerance, TimeSpan within, DemandAction action)
    : ChannelInterlock(channel, action)
{
    public const ushort DoesNotFollow = 1;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        if (input.Gate)
        {
            // The receiver says what goes out, and the board holds that against its pin.
            memory = default;
            return Proceed(0, tolerance, Margin.Allowed(1), entry.MaximumAt);
        }

        double demanded = controller.PulseFor(input.Throttle);
        bool above = entry.Maximum - demanded >= demanded - entry.Minimum;
        double difference = above ? entry.Maximum - demanded : entry.Minimum - demanded;
        double size = above ? difference : -difference;
        // It counts from the scan that saw it: what was read before the demand changed is no fault.
        bool lasted = Lasting.Reached(!(size <= tolerance), input.Now, input.Now, within, ref memory);
        double margin = Margin.Under(size, tolerance);
        return lasted
            ? Object(DoesNotFollow, difference, tolerance, margin, above ? entry.MaximumAt : entry.MinimumAt)
            : Proceed(difference, tolerance, Margin.Allowed(margin), above ? entry.MaximumAt : entry.MinimumAt);
    }

    protected override string Describe(in Demand demand)
    {
        string off = $"{Channel.Name} is {Words.Quantity(Math.Abs(demand.Value), demand.Limit, "us")} {(demand.Value < 0 ? "shorter" : "longer")} than demanded";
        string allowed = $"{Words.Quantity(demand.Limit, "us")} is allowed";
        return demand.Reason switch
        {
            0 when Math.Abs(demand.Value) > demand.Limit => $"{off}; {allowed}, and more for less than {Words.Duration(within)}",
            0 => $"{Channel.Name} is the pulse demanded",
            _ => $"{off} and has not followed within {Words.Duration(within)}; {allowed}",
        };
    }
}
