using RigControl.Analysis.Figures;
using RigControl.Analysis.Inertias;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Tests.Inertias;

/// <summary>Source: handbook mechanics of rigid bodies (formulas from memory), values derived.</summary>
public class GeometryInertiaTests
{
    [Theory]
    [InlineData("disc", 0.0016)]
    [InlineData("ring", 0.0025)]
    [InlineData("thin-ring", 0.0032)]
    [InlineData("rod", 0.0002666666666666667)]
    [InlineData("bar", 0.0004166666666666667)]
    [InlineData("sphere", 0.00128)]
    public void Every_shape_has_the_inertia_of_the_handbook(string shape, double inertia) => Near.Relative(inertia, GeometryInertia.Of([Part(shape, 0.5, 0, false)]).Value, 1e-12);

    [Fact]
    public void A_disc_with_a_concentric_disc_taken_away_is_a_ring()
    {
        RotorPart whole = new(Shape("disc"), Exact(0.5), [Exact(0.08)], Exact(0), false), hole = new(Shape("disc"), Exact(0.5 / 4), [Exact(0.04)], Exact(0), true);
        RotorPart ring = new(Shape("ring"), Exact(0.5 * 3 / 4), [Exact(0.08), Exact(0.04)], Exact(0), false);
        Near.Relative(GeometryInertia.Of([ring]).Value, GeometryInertia.Of([whole, hole]).Value, 1e-12);
    }

    [Fact]
    public void A_part_off_the_axis_counts_with_its_distance_squared() =>
        Near.Relative(0.0016 + 0.5 * 0.1 * 0.1, GeometryInertia.Of([Part("disc", 0.5, 0.1, false)]).Value, 1e-12);

    /// <summary>Source: derived; a share of the mass counts once, of the radius twice.</summary>
    [Fact]
    public void The_budget_names_what_to_measure_better()
    {
        Measured found = GeometryInertia.Of([new RotorPart(Shape("disc"), new Input("mass", 0.5, 0.001), [new Input("radius", 0.08, 0.0001)], Exact(0), false)]);
        Near.Relative(Math.Sqrt(Math.Pow(0.001 / 0.5, 2) + Math.Pow(2 * 0.0001 / 0.08, 2)), found.Uncertainty / found.Value, 1e-4);
        Assert.Equal("radius", found.Budget[0].Name);
    }

    [Fact]
    public void More_taken_away_than_there_is_gives_no_inertia() =>
        Assert.Throws<NoFigureException>(() => GeometryInertia.Of([Part("disc", 0.5, 0, false), Part("disc", 0.6, 0, true)]));

    private static RotorPart Part(string shape, double mass, double distance, bool takenAway)
    {
        Input[] lengths = shape switch { "ring" => [Exact(0.08), Exact(0.06)], "bar" => [Exact(0.08), Exact(0.06)], _ => [Exact(0.08)] };
        return new RotorPart(Shape(shape), Exact(mass), lengths, Exact(distance), takenAway);
    }

    private static BodyShape Shape(string name) => BodyShape.All.Single(s => s.Name == name);

    private static Input Exact(double value) => new("exact", value, 0);
}
