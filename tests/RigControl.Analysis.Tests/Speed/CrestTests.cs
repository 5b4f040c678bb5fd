using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

public class CrestTests
{
    private const int Runs = 300;

    /// <summary>
    /// The slow crests bend by less than the scatter over seconds; the lopsided one rises quickly and falls slowly, as a speed does while its
    /// pack fades. Of the last one a parabola shows too little, and the interval is known to be too short (docs/figures.md).
    /// </summary>
    [Theory]
    [InlineData("flat", 0.1, 0.88)]
    [InlineData("hill", 0.1, 0.88)]
    [InlineData("rise", 0.1, 0.88)]
    [InlineData("slow crest", 0.1, 0.88)]
    [InlineData("slower crest", 0.1, 0.88)]
    [InlineData("lopsided crest", 0.1, 0.88)]
    [InlineData("quick rise and slow fall", 0.2, 0.8)]
    public void The_level_behind_scattering_values_is_found_without_going_up_with_them(string shape, double off, double share)
    {
        SplitMix chance = new(51);
        double sum = 0, width = 0;
        int held = 0;
        for (int run = 0; run < Runs; run++)
        {
            double[] times = [.. Enumerable.Range(0, 600).Select(i => i * 0.01)];
            Measured found = Crest.Of(times, [.. times.Select(t => Truth(shape, t) + chance.Bell())], 1)!;
            double highest = times.Max(t => Truth(shape, t));
            sum += found.Value - highest;
            width += found.Interval95.High - found.Interval95.Low;
            held += found.Interval95.Low <= highest && highest <= found.Interval95.High ? 1 : 0;
        }

        Assert.True(Math.Abs(sum) < off * width, $"{shape}, seed 51: off by {sum / width:0.000} of the interval's width");
        Assert.True(held >= share * Runs, $"{shape}, seed 51: {held} of {Runs} intervals hold the truth");
    }

    private static double Truth(string shape, double t) => shape switch
    {
        "flat" => 100,
        "hill" => 100 - 2 * (t - 3) * (t - 3),
        "slow crest" => 100 - 0.3 * (t - 3) * (t - 3),
        "slower crest" => 100 - 0.1 * (t - 3) * (t - 3),
        "lopsided crest" => 90 + 10 * Math.E * t * Math.Exp(-t),
        "quick rise and slow fall" => 100 * (1 - Math.Exp(-t / 0.3)) - 0.5 * t,
        _ => 94 + t,
    };

    [Fact]
    public void A_spike_is_no_crest_to_be_smoothed()
    {
        double[] times = [.. Enumerable.Range(0, 100).Select(i => i * 0.01)];
        Assert.Null(Crest.Of(times, [.. times.Select((_, i) => i == 40 ? 90 : 10 + 0.1 * (i % 2))], 0.1));
    }
}
