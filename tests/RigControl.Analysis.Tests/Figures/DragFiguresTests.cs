using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>What slows the modelled disc, beside what theory says of a free one.</summary>
public class DragFiguresTests
{
    private const double Teeth = 2e-8;

    // Without air, so that the quadratic term has a truth of its own.
    private static readonly BenchRecord Disc = new(new BenchParameters
    {
        Rotor = new BenchParameters().Rotor with { Drag = new Drag(0.0015, 1e-6, Teeth, 0.003), WindageShare = 0 },
    }, until: 60);

    /// <summary>Source: the ratio, derived from the bench's own drag and the windage of RigControl.Physics, whose sources stand there.</summary>
    [Fact]
    public void A_disc_s_quadratic_drag_stands_beside_the_air_drag_of_a_free_disc_as_a_ratio()
    {
        Figure figure = Disc.Figure("drag-quadratic");
        Assert.True(figure.Value is not null, figure.Note);
        Near.Relative(Teeth, figure.Value.Value, 0.1);
        double speed = Disc.Truth.First(t => t.Time >= BenchRecord.Stop + 0.05).Speed;
        double ratio = figure.Value.Value * speed * speed / Windage.Torque(Air.AtTwentyDegrees, 0.045, speed);
        string[] words = figure.Note!.Split("; ").Single(n => n.EndsWith("(theory)", StringComparison.Ordinal)).Split(' ');
        Assert.Equal("at", words[0]);
        Near.Relative(speed * 30 / Math.PI, double.Parse(words[1], System.Globalization.CultureInfo.InvariantCulture), 0.01, "speed");
        Near.Absolute(ratio, double.Parse(words[3], System.Globalization.CultureInfo.InvariantCulture), 0.02 * ratio + 0.01, "ratio");
        Assert.Contains("45 mm radius", figure.Note, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1.0 / 3)]
    [InlineData(1)]
    public void A_bar_or_a_ring_is_not_held_against_a_disc(double share)
    {
        Model.Rig.Article article = Disc.Declared with { Rotor = Disc.Declared.Rotor! with { Inertia = share * 0.18 * 0.045 * 0.045 } };
        Figure figure = FigureCatalog.Compute(["drag-quadratic"], Disc.Input() with { Article = article }).Single();
        Assert.True(figure.Value is not null, figure.Note);
        Assert.DoesNotContain("theory", figure.Note ?? "", StringComparison.Ordinal);
    }
}
