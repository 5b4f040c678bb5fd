using RigControl.Analysis.Figures;
using RigControl.Analysis.Power;
using RigControl.Analysis.Traces;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Power;

/// <summary>The highest level of a channel, where more than one is near the highest.</summary>
public class ExtremeTests
{
    // A pack stands highest before it is loaded, and for longer a little lower after it.
    [Theory]
    [InlineData(0.02)]
    [InlineData(0.01)]
    [InlineData(0.004)]
    public void A_high_level_is_not_left_for_a_lower_one_that_lasts_longer(double lower)
    {
        SplitMix chance = new(31);
        double[] times = [.. Enumerable.Range(0, 2000).Select(i => 0.01 * i)];
        double Level(double t) => t < 1.6 ? 12.4 : t < 12 ? 11.8 : 12.4 - lower;
        int held = 0;
        for (int run = 0; run < 200; run++)
        {
            Measured found = Extreme.Of(new Series("V", 0.004, times, [.. times.Select(t => 0.004 * Math.Round((Level(t) + 0.01 * chance.Bell()) / 0.004))]), highest: true);
            (double low, double high) = found.Interval95;
            held += low <= 12.4 && 12.4 <= high ? 1 : 0;
        }

        // 200 runs at 95 %: fewer than 180 happen once in a thousand.
        Assert.True(held >= 180, $"seed 31: {held} of 200 intervals hold the truth");
    }
}
