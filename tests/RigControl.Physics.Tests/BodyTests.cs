namespace RigControl.Physics.Tests;

public class BodyTests
{
    /// <summary>Source: handbook formulas, values derived; mech/inertia_formulas.csv.</summary>
    [Fact]
    public void Inertias_agree_with_the_handbook_formulas()
    {
        var expected = Reference.Rows("mech/inertia_formulas.csv").ToDictionary(row => row[0].Trim('"'), row => Reference.Number(row[^1]));
        Near.Relative(expected["solid disc/cylinder"], Body.Disc(0.5, 0.05).Inertia, 1e-12);
        Near.Relative(expected["annulus"], Body.Ring(0.5, 0.06, 0.04).Inertia, 1e-12);
        Near.Relative(expected["thin ring"], Body.ThinRing(0.3, 0.07).Inertia, 1e-12);
        Near.Relative(expected["slender rod about centre"], Body.Rod(0.2, 0.3).Inertia, 1e-12);
        Near.Relative(expected["slender rod about end"], Body.Rod(0.2, 0.3).At(0.15).Inertia, 1e-12);
        Near.Relative(expected["solid sphere"], Body.Sphere(1, 0.05).Inertia, 1e-12);
        Near.Relative(expected["parallel axis"], new Body(0.1, 1e-4).At(0.05).Inertia, 1e-12);
    }

    /// <summary>Source: the same table; its row is quoted because the name holds a comma.</summary>
    [Fact]
    public void A_bar_agrees_with_the_handbook_formula()
    {
        string[][] rows = Reference.Rows("mech/inertia_formulas.csv");
        string[] row = rows.Single(cells => cells[0].StartsWith("\"rectangular bar", StringComparison.Ordinal));
        Near.Relative(Reference.Number(row[^1]), Body.Bar(0.4, 0.2, 0.03).Inertia, 1e-12);
    }

    [Fact]
    public void A_disc_with_its_middle_taken_out_is_a_ring()
    {
        // Equal thickness: the mass of a disc goes with the square of its radius.
        Body ring = Body.Disc(0.36, 0.06) - Body.Disc(0.09, 0.03);
        Body expected = Body.Ring(0.27, 0.06, 0.03);
        Near.Relative(expected.Mass, ring.Mass, 1e-12);
        Near.Relative(expected.Inertia, ring.Inertia, 1e-12);
    }

    [Fact]
    public void Two_half_rods_make_a_whole_one()
    {
        Body half = Body.Rod(0.1, 0.15).At(0.075);
        Near.Relative(Body.Rod(0.2, 0.3).Inertia, (half + half).Inertia, 1e-12);
    }

    [Fact]
    public void A_hole_drilled_off_the_axis_takes_more_than_one_on_it()
    {
        Body hole = Body.Disc(0.01, 0.005);
        Body disc = Body.Disc(0.18, 0.045);
        Assert.True((disc - hole.At(0.03)).Inertia < (disc - hole).Inertia);
    }

    [Fact]
    public void A_ring_without_a_bore_is_a_disc_and_one_without_a_wall_is_thin()
    {
        Assert.Equal(Body.Disc(0.2, 0.05), Body.Ring(0.2, 0.05, 0));
        Near.Relative(Body.ThinRing(0.2, 0.05).Inertia, Body.Ring(0.2, 0.05, 0.05).Inertia, 1e-12);
    }

    [Fact]
    public void Twice_the_size_at_equal_mass_is_four_times_the_inertia()
        => Near.Relative(4 * Body.Bar(1, 0.1, 0.02).Inertia, Body.Bar(1, 0.2, 0.04).Inertia, 1e-12);
}
