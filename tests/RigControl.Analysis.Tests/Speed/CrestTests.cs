using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

public class CrestTests
{
    [Theory]
    [InlineData("flat")]
    [InlineData("hill")]
    [InlineData("rise")]
    public void The_level_behind_scattering_values_is_found_without_going_up_with_them(string shape)
    {
        SplitMix chance = new(51);
        double sum = 0;
        int held = 0;
        const int Runs = 200;
        for (int run = 0; run < Runs; run++)
        {
            double[] times = [.. Enumerable.Range(0, 600).Select(i => i * 0.01)];
            Func<double, double> truth = shape switch { "flat" => _ => 100, "hill" => t => 100 - 2 * (t - 3) * (t - 3), _ => t => 94 + t };
            Measured found = Crest.Of(times, [.. times.Select(t => truth(t) + chance.Bell())], 1)!;
            double highest = times.Max(truth);
            sum += found.Value - highest;
            held += found.Interval95.Low <= highest && highest <= found.Interval95.High ? 1 : 0;
        }

        Assert.True(Math.Abs(sum / Runs) < 0.3, $"{shape}, seed 51: off by {sum / Runs:0.00} of the scatter; the highest value alone is off by 3");
        Assert.True(held > 0.85 * Runs, $"{shape}, seed 51: {held} of {Runs} intervals hold the truth");
    }

    [Fact]
    public void A_spike_is_no_crest_to_be_smoothed()
    {
        double[] times = [.. Enumerable.Range(0, 100).Select(i => i * 0.01)];
        Assert.Null(Crest.Of(times, [.. times.Select((_, i) => i == 40 ? 90 : 10 + 0.1 * (i % 2))], 0.1));
    }
}
