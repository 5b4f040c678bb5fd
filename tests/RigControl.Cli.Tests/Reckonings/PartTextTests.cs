using RigControl.Analysis.Inertias;
using RigControl.Cli.Reckonings;

namespace RigControl.Cli.Tests.Reckonings;

/// <summary>A part of a rotor as a person writes it.</summary>
public class PartTextTests
{
    [Fact]
    public void A_part_has_its_shape_mass_lengths_and_distance()
    {
        RotorPart part = PartText.Read("bar, 200 g +- 1, 120 mm, 20 mm +- 0.1, at 30 mm", 2, takenAway: true);
        Assert.Equal(("bar", true), (part.Shape.Name, part.TakenAway));
        Assert.Equal(("bar 2 mass", 0.2, 0.001), (part.Mass.Name, part.Mass.Value, part.Mass.Uncertainty));
        Assert.Equal([("bar 2 length", 0.12, 0.0), ("bar 2 width", 0.02, 0.0001)], part.Lengths.Select(l => (l.Name, l.Value, l.Uncertainty)));
        Assert.Equal(0.03, part.Distance.Value);
    }

    [Fact]
    public void A_part_without_a_distance_turns_about_its_own_axis() => Assert.Equal(0, PartText.Read("disc, 1 kg, 50 mm", 1, takenAway: false).Distance.Value);

    [Theory]
    [InlineData("")]
    [InlineData("cube, 1 kg, 50 mm")]
    [InlineData("disc")]
    [InlineData("disc, 1 kg")]
    [InlineData("disc, 1 kg, 50 mm, 20 mm")]
    [InlineData("at 20 mm")]
    public void What_is_no_part_is_told_every_shape_and_its_lengths(string text)
    {
        string said = Refused(text);
        Assert.All(BodyShape.All, s => Assert.Contains($"{s.Name} ({string.Join(", ", s.Lengths)})", said, StringComparison.Ordinal));
    }

    [Fact]
    public void A_ring_whose_radii_are_swapped_is_told_so() =>
        Assert.Contains("the outer one, which comes first", Refused("ring, 1 kg, 20 mm, 50 mm"), StringComparison.Ordinal);

    private static string Refused(string text) => Assert.Throws<CliException>(() => { PartText.Read(text, 1, takenAway: false); }).Message;
}
