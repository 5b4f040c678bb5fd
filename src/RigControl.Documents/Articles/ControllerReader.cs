using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Articles;

/// <summary>
/// Reads what the speed controller needs. No key has a default: the pulse that stops one controller drives another at half
/// throttle, so only the builder can say.
/// </summary>
internal static class ControllerReader
{
    private static readonly Bounds Pulse = new("us", 500, 2500);
    private static readonly Bounds ArmingTime = new("s", 0, 60);

    public static ControllerProfile? Read(Fields? fields)
    {
        if (fields is null)
            return null;
        var mode = fields.Choice<ControllerMode>("mode");
        double? stop = fields.Quantity("stop", Pulse);
        double? minimum = fields.Quantity("minimum", Pulse);
        double? maximum = fields.Quantity("maximum", Pulse);
        var direction = fields.Choice<PulseDirection>("direction");
        bool? brakes = fields.Switch("brakes-at-stop");
        var ceased = fields.Choice<CeasedPulseBehaviour>("when-pulses-cease");
        TimeSpan? arming = fields.Time("arming-time", ArmingTime);
        fields.Close();
        if (Contradiction(mode, direction, stop, minimum, maximum) is var (key, what, remedy))
            fields.Problems.Add(fields.PlaceOf(key), what, remedy);
        return new()
        {
            Mode = mode ?? default,
            StopPulse = stop ?? 0,
            MinimumPulse = minimum ?? 0,
            MaximumPulse = maximum ?? 0,
            Direction = direction ?? default,
            BrakesAtStop = brakes ?? false,
            WhenPulsesCease = ceased ?? default,
            ArmingTime = arming ?? TimeSpan.Zero,
        };
    }

    /// <summary>The first thing in which the pulses contradict each other; what is null is not judged.</summary>
    private static (string Key, string What, string Remedy)? Contradiction(
        ControllerMode? mode, PulseDirection? direction, double? stop, double? minimum, double? maximum)
    {
        if (minimum >= maximum)
            return ("minimum", "the minimum pulse is not shorter than the maximum", "write the shorter pulse as `minimum`");
        if (stop < minimum || stop > maximum)
            return ("stop", "the stop pulse lies outside minimum to maximum", "write a pulse between them, or widen them");
        if (mode == ControllerMode.TwoWay && (stop == minimum || stop == maximum))
            return ("stop", "the stop pulse of a two-way controller lies between its ends", "write the pulse at which it drives neither way");
        return mode == ControllerMode.OneWay && direction is { } way ? OneWayContradiction(way, stop, way == PulseDirection.Longer ? minimum : maximum) : null;
    }

    /// <param name="end">The pulse at the end away from the direction, where no throttle is.</param>
    private static (string Key, string What, string Remedy)? OneWayContradiction(PulseDirection way, double? stop, double? end)
    {
        if (stop is null || end is null || stop == end)
            return null;
        string name = way == PulseDirection.Longer ? "minimum" : "maximum";
        return ("stop", $"a one-way controller with a {Words.Of(way)} pulse for more throttle stops at its {name}",
            $"write `{Quantity.Show(end.Value)} us`, or check mode and direction");
    }
}
