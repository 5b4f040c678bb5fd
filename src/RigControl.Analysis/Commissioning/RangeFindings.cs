using System.Globalization;
using RigControl.Analysis.Traces;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Commissioning;

/// <summary>Where the controller's range begins and ends, and whether it stands at stop.</summary>
internal static class RangeFindings
{
    // Of the range: an end that is nearer to the declared one than this is the same.
    private const double Doubt = 0.01;

    public static IEnumerable<Finding> Of(RotorOffRun run)
    {
        Ramp[] ramps = [.. run.Trace.Segments.Select(s => Ramp.Of(run, s)).OfType<Ramp>()];
        yield return Stop(run, ramps);
        yield return Direction(run, ramps);
        if (ramps.Length > 0)
            yield return Far(run, ramps);
    }

    private static Finding Stop(RotorOffRun run, Ramp[] ramps)
    {
        double stop = run.Article.Controller.StopPulse;
        if (TurnedBeforeTheRise(run) is { } speed)
            return new("stop", Verdict.Wrong, null, Text($"the shaft turned at {speed:0} rpm before anything was asked for: {stop:0} us is not where this controller stops; look into its manual for stop, mode and direction, pack disconnected"));
        double[] begins = [.. ramps.Select(r => r.Begin).OfType<double>()];
        if (begins.Length == 0)
            return new("stop", Verdict.Unknown, null, "no speed was read on a rise, so that nothing tells where the range begins");
        double near = begins.MinBy(b => Math.Abs(b - stop));
        return new("stop", Verdict.Holds, null, Text($"the shaft stood at {stop:0} us and began to turn at {Range(begins)}, {Math.Abs(near - stop):0} us away from stop"));
    }

    // What turned before the rise was driven by the stop pulse, or by hand.
    private static double? TurnedBeforeTheRise(RotorOffRun run)
    {
        if (run.Speed is not { } speed || !(run.FirstRise > run.ArmedAt))
            return null;
        double[] before = speed.Between(run.ArmedAt, run.FirstRise).Values;
        double fastest = before.Length == 0 ? 0 : before.Max(Math.Abs);
        return fastest > RotorOffRun.RestSpeed ? fastest : null;
    }

    private static Finding Direction(RotorOffRun run, Ramp[] ramps)
    {
        PulseDirection declared = run.Article.Controller.Direction;
        string word = declared == PulseDirection.Longer ? "longer" : "shorter";
        if (ramps.Length == 0)
            return new("direction", Verdict.Unknown, null, "no rise with a speed was recorded");
        return ramps.All(r => r.Begin is null)
            ? new("direction", Verdict.Wrong, null, Text($"the shaft did not turn although the pulse went to {ramps[^1].Last:0} us: power, wires, arming time, direction or range; nothing here tells which"))
            : new("direction", Verdict.Holds, null, $"a {word} pulse drove it");
    }

    private static Finding Far(RotorOffRun run, Ramp[] ramps)
    {
        ControllerProfile controller = run.Article.Controller;
        bool up = ramps[0].Sign > 0;
        string key = up ? "maximum" : "minimum";
        double declared = up ? controller.MaximumPulse : controller.MinimumPulse;
        double[] ends = [.. ramps.Select(r => r.End).OfType<double>()];
        if (ends.Length < ramps.Length)
            return new(key, Verdict.Unknown, null, Text($"the speed still gained at {ramps[^1].Last:0} us, the furthest that was tried: the end is there or beyond"));
        // The outermost: what still gained in one of the runs belongs to the range.
        double end = Math.Round(up ? ends.Max() : ends.Min());
        double doubt = Math.Max(Spread(ends), Doubt * Math.Abs(end - controller.StopPulse));
        return Math.Abs(end - declared) <= doubt
            ? new(key, Verdict.Holds, null, Text($"the speed gained up to {Range(ends)}"))
            : new(key, Verdict.Change, Text($"{end:0} us"), Text($"beyond {Range(ends)} the speed gained nothing, although {declared:0} us is declared"));
    }

    private static double Spread(double[] values) => values.Max() - values.Min();

    private static string Range(double[] values) => values.Length == 1
        ? Text($"{values[0]:0} us (one run: how well it repeats is unknown)")
        : Text($"{values.Min():0} to {values.Max():0} us in {values.Length} runs");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
