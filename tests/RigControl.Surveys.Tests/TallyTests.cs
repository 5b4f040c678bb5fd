using MathNet.Numerics.Distributions;
using RigControl.Model.Records;

namespace RigControl.Surveys.Tests;

public class TallyTests
{
    [Fact]
    public void Intervals_that_are_right_hold_in_95_of_100() => Assert.InRange(Of(half: 1.96, off: 0).Coverage, 94, 96);

    [Fact]
    public void Intervals_that_are_half_as_wide_as_they_ought_to_be_are_found_out() => Assert.InRange(Of(half: 0.98, off: 0).Coverage, 65, 69.5);

    [Fact]
    public void Values_that_lie_to_one_side_are_found_out() => Assert.InRange(Of(half: 1.96, off: 0.5).Bias, 0.11, 0.145);

    [Fact]
    public void A_reason_instead_of_a_number_counts_for_itself()
    {
        Tally tally = new("x");
        tally.Add(null, 1);
        tally.Add(new Figure("x", null, "", null, null, 1, "", "none"), 1);
        Assert.Equal((0, 2), (tally.Values, tally.Reasons));
    }

    private static Tally Of(double half, double off)
    {
        Tally tally = new("x");
        for (int i = 0; i < 10_000; i++)
        {
            double value = 10 + off + Normal.InvCDF(0, 1, (i + 0.5) / 10_000);
            tally.Add(new Figure("x", value, "", 1, (value - half, value + half), 1, "", null), 10);
        }

        return tally;
    }
}
