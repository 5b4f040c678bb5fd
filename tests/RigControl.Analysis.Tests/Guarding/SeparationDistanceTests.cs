using System.Text.Json.Nodes;
using RigControl.Analysis.Guarding;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Guarding;

/// <summary>The distance of a guard from what it guards, against the worked examples of shared/reference/safety.</summary>
public class SeparationDistanceTests
{
    [Trait("Requirement", "SAF-084")]
    [Fact]
    public void Every_worked_example_comes_out_to_the_millimetre()
    {
        JsonArray examples = Reference.Json("safety/separation_distance.json")["examples"]!.AsArray();
        Assert.Equal(5, examples.Count);
        foreach (JsonNode? example in examples)
        {
            double least = SeparationDistance.Of(Reference.Number(example!, "T"), Reference.Number(example!, "d") / 1000)!.Value;
            Assert.Equal(Reference.Number(example!, "S") / 1000, least, 1e-9);
        }
    }

    [Theory]
    [InlineData(0.0, 0.0, 0.1)] // never nearer than that, however fast it stops
    [InlineData(0.25, 0.014, 0.5)] // where the fast hand ends
    [InlineData(0.26, 0.014, 0.5)] // slower with the slow hand, but not below the distance of the fast one
    [InlineData(0.1, 0.041, 1.01)] // wider than a hand: an arm
    [InlineData(0.1, 0.070, 1.01)]
    public void The_corners_of_the_rule_hold(double stopping, double gap, double least) =>
        Assert.Equal(least, SeparationDistance.Of(stopping, gap)!.Value, 1e-9);

    [Theory]
    [InlineData(0.1, 0.0701)]
    [InlineData(-0.1, 0.014)]
    [InlineData(double.NaN, 0.014)]
    [InlineData(double.PositiveInfinity, 0.014)]
    [InlineData(0.1, -0.001)]
    [InlineData(0.1, double.NaN)]
    public void Of_what_the_rule_does_not_cover_it_says_nothing(double stopping, double gap) => Assert.Null(SeparationDistance.Of(stopping, gap));

    [Fact]
    public void What_stops_later_or_opens_wider_never_asks_for_less()
    {
        for (double gap = 0; gap <= 0.070; gap += 0.002)
        {
            double before = 0;
            for (double stopping = 0; stopping < 20; stopping += 0.05)
            {
                double least = SeparationDistance.Of(stopping, gap)!.Value;
                Assert.True(least >= before, $"{stopping} s behind {gap} m");
                before = least;
                Assert.True(gap < 0.002 || least >= SeparationDistance.Of(stopping, gap - 0.002)!.Value, $"{stopping} s behind {gap} m");
            }
        }
    }
}
