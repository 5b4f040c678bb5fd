using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Comparing;

/// <summary>Why the spin-ups of one side take longer than those of another: the means over all repeats that tell it.</summary>
/// <param name="Speed">rad/s that all of them reach: nine tenths of the lowest steady speed.</param>
/// <param name="First">From the first demand to that speed on the first side, s.</param>
/// <param name="Second">The same on the second.</param>
/// <param name="Repeats">How many repeats of each side told it.</param>
public sealed record SpinUpSplit(double Speed, Measured First, Measured Second, WhySlower Why, (int First, int Second) Repeats)
{
    private const double Share = 0.9;

    // Ramps that differ by less come from the scan that began them.
    private const double SameRamp = 0.05;

    /// <param name="first">Every repeat of the first side's runs.</param>
    /// <exception cref="NoFigureException">It cannot be told; the message says what is lacking.</exception>
    public static SpinUpSplit Of(IReadOnlyList<FigureContext> first, IReadOnlyList<FigureContext> second)
    {
        IReadOnlyList<SpinUpRecord> a = Read(first, "the first side"), b = Read(second, "the second side");
        double[] ramps = [.. a.Concat(b).Select(r => r.Cause.Ramp)];
        if (ramps.Max() - ramps.Min() > SameRamp)
            throw new NoFigureException(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"the demand rose in {ramps.Min():0.##} s in one spin-up and in {ramps.Max():0.##} s in another"));
        double speed = Share * a.Concat(b).Min(r => r.Steady);
        (SpinUpCause causeA, SpinUpCause causeB) = Together(Mean(a), Mean(b), ramps.Average());
        Measured timeA = Mean([.. a.Select(r => r.TimeTo(speed).As("time"))]), timeB = Mean([.. b.Select(r => r.TimeTo(speed).As("time"))]);
        return new SpinUpSplit(speed, timeA, timeB, WhySlower.Of(causeA, timeA, causeB, timeB, speed), (a.Count, b.Count));
    }

    // A repeat that tells nothing is left out, as long as another does.
    private static List<SpinUpRecord> Read(IReadOnlyList<FigureContext> repeats, string side)
    {
        List<SpinUpRecord> told = [];
        string reason = "the output never rose";
        foreach (FigureContext repeat in repeats)
        {
            try
            {
                told.Add(SpinUpRecord.Of(repeat));
            }
            catch (Exception e) when (e is NoFigureException or FitFailedException)
            {
                reason = e.Message;
            }
        }

        return told.Count > 0 ? told : throw new NoFigureException($"of {side}, {reason}");
    }

    // One ramp for both, and what both declare alike is no cause: its doubt is on both sides.
    private static (SpinUpCause, SpinUpCause) Together(SpinUpCause a, SpinUpCause b, double ramp)
    {
        bool alike = a.Inertia.Value == b.Inertia.Value;
        SpinUpCause With(SpinUpCause c) => c with { Ramp = ramp, Inertia = alike ? c.Inertia with { Uncertainty = 0 } : c.Inertia };
        return (With(a), With(b));
    }

    private static SpinUpCause Mean(IReadOnlyList<SpinUpRecord> records)
    {
        Input Of(Func<SpinUpCause, Input> take)
        {
            Input[] each = [.. records.Select(r => take(r.Cause))];
            Measured mean = Mean(each);
            return each[0] with { Value = mean.Value, Uncertainty = mean.Uncertainty, Freedom = mean.Freedom };
        }

        return new SpinUpCause(
            Of(c => c.Supply), Of(c => c.TorqueConstant), Of(c => c.Resistance), records.Average(r => r.Cause.CurrentLimit),
            (Of(c => c.Drag.Constant), Of(c => c.Drag.Linear), Of(c => c.Drag.Quadratic)), Of(c => c.Inertia));
    }

    // The scatter of the repeats, and never less than what each is known to by itself: most of that is the same in all of them.
    private static Measured Mean(IReadOnlyList<Input> each)
    {
        double[] values = [.. each.Select(i => i.Value)];
        double own = Math.Sqrt(each.Average(i => i.Uncertainty * i.Uncertainty));
        double seen = each.Count > 1 ? Summary.Deviation(values) / Math.Sqrt(each.Count) : 0;
        double freedom = seen > own ? each.Count - 1 : each.Min(i => i.Freedom);
        return new Measured(Summary.Mean(values), Math.Max(own, seen)) { Freedom = freedom };
    }
}
