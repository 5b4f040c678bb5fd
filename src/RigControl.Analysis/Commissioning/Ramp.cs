using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Commissioning;

/// <summary>Speed over pulse in a repeat, from its rise to the pulse furthest from stop.</summary>
/// <param name="Pulses">us, at the times of <paramref name="Speeds"/>.</param>
/// <param name="Speeds">rpm.</param>
/// <param name="Sign">1 where the pulse grew, −1 where it shrank.</param>
/// <param name="Stop">us.</param>
internal sealed record Ramp(double[] Pulses, double[] Speeds, int Sign, double Stop)
{
    // Fewer samples say nothing about a shape.
    private const int Fewest = 20;

    // Share of the top speed within which a speed counts as the top.
    private const double Top = 0.01;

    // How much longer than a straight line would take the last hundredth has to last, so that it counts as an end.
    private const double Flat = 5;

    /// <summary>The ramp of a repeat; null where speed or pulse were hardly read, or the pulse did not move.</summary>
    public static Ramp? Of(RotorOffRun run, Segment segment)
    {
        double end = double.IsNaN(segment.ReleaseAt) ? segment.EndAt : segment.ReleaseAt;
        if (run.Speed is not { } speed || run.Pulse is not { } pulse || !(end > segment.RiseAt))
            return null;
        Series rise = speed.Between(segment.RiseAt, end);
        double[] pulses = [.. rise.Times.Select(t => At(pulse, t))];
        // Up to the furthest pulse, wherever it goes afterwards.
        double stop = run.Article.Controller.StopPulse;
        double furthest = pulses.Select(p => Math.Abs(p - stop)).DefaultIfEmpty().Max();
        int count = pulses.Length == 0 ? 0 : 1 + Array.FindLastIndex(pulses, p => Math.Abs(p - stop) >= furthest);
        if (count < Fewest)
            return null;
        int sign = Math.Sign(pulses[count - 1] - pulses[0]);
        return sign == 0 ? null : new Ramp(pulses[..count], rise.Values[..count], sign, stop);
    }

    /// <summary>Pulse at which the shaft began to turn, us; null where it never did.</summary>
    public double? Begin
    {
        get
        {
            int first = Array.FindIndex(Speeds, s => Math.Abs(s) > RotorOffRun.RestSpeed);
            return first < 0 ? null : Pulses[first];
        }
    }

    public double Last => Pulses[^1];

    /// <summary>Pulse from which the speed gained no more, us; null where it still did at the end.</summary>
    public double? End
    {
        get
        {
            if (Begin is not { } begin)
                return null;
            double top = Speeds.Max(Math.Abs);
            int below = Array.FindLastIndex(Speeds, s => Math.Abs(s) < top * (1 - Top));
            double reached = Pulses[Math.Min(below + 1, Pulses.Length - 1)];
            double straight = Math.Abs(reached - begin) * Top;
            // Speed grows with the distance from stop: the last hundredth of it is still to come.
            return Math.Abs(Last - reached) > Flat * straight ? Stop + (reached - Stop) / (1 - Top) : null;
        }
    }

    // The pulse that stood at a time: the last one told before.
    private static double At(Series pulse, double time)
    {
        int index = Array.BinarySearch(pulse.Times, time);
        int last = index >= 0 ? index : ~index - 1;
        return pulse.Values[Math.Max(0, last)];
    }
}
