using RigControl.Analysis.Speed;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

public class MarkChainTests
{
    private const double Period = 0.005;

    [Fact]
    public void Many_marks_that_hang_together_are_dated_far_better_than_a_sample()
    {
        SplitMix chance = new(41);
        double worst = 0;
        for (int run = 0; run < 50; run++)
        {
            MarkChain chain = new();
            double turn = chance.Uniform(0.02, 0.05), at = chance.Uniform(0, 1);
            List<double> truth = [];
            for (int k = 0; k < 60; k++, at += turn)
            {
                double sample = Math.Ceiling(at / Period) * Period;
                chain.Add(sample - Period, sample, turn);
                truth.Add(at);
            }

            chain.Settle();
            worst = Math.Max(worst, truth.Zip(chain.Marks, (t, m) => Math.Abs(t - m)).Max());
        }

        Assert.True(worst < 0.2 * Period, $"seed 41: off by {worst * 1000:0.00} ms");
    }

    [Fact]
    public void A_missed_mark_begins_a_chain_of_its_own()
    {
        MarkChain chain = new();
        foreach (double at in new[] { 0.101, 0.131, 0.161, 0.291, 0.321 })
            chain.Add(Math.Ceiling(at / Period) * Period - Period, Math.Ceiling(at / Period) * Period, 0.03);
        chain.Settle();
        foreach ((double truth, double found) in new[] { 0.101, 0.131, 0.161, 0.291, 0.321 }.Zip(chain.Marks))
            Near.Absolute(truth, found, Period / 2);
    }
}
