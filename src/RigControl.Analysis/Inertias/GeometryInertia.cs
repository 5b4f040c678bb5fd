using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Inertias;

/// <summary>A part of a rotor, or a hole in it.</summary>
/// <param name="Mass">kg, above 0 for a hole too: of the material that is missing.</param>
/// <param name="Lengths">m, as <see cref="BodyShape.Lengths"/> has them.</param>
/// <param name="Distance">Of the part's centre from the axis, m.</param>
public sealed record RotorPart(BodyShape Shape, Input Mass, IReadOnlyList<Input> Lengths, Input Distance, bool TakenAway);

/// <summary>A rotor's inertia from its drawing: bodies added and subtracted, each about the rotor's axis (parallel axis theorem).</summary>
public static class GeometryInertia
{
    /// <summary>kg.m2 about the rotor's axis; masses and lengths count as independent of each other.</summary>
    /// <exception cref="NoFigureException">More is taken away than there is.</exception>
    public static Measured Of(IReadOnlyList<RotorPart> parts)
    {
        Measured found = Propagation.Of(x => Sum(parts, x), [.. parts.SelectMany(p => (IEnumerable<Input>)[p.Mass, .. p.Lengths, p.Distance])]);
        return found.Value > 0 ? found : throw new NoFigureException("more is taken away than there is");
    }

    private static double Sum(IReadOnlyList<RotorPart> parts, ReadOnlySpan<double> inputs)
    {
        double sum = 0;
        foreach (RotorPart part in parts)
        {
            int own = 1 + part.Lengths.Count;
            Body body = new Body(inputs[0], part.Shape.Inertia(inputs[..own])).At(inputs[own]);
            sum += part.TakenAway ? -body.Inertia : body.Inertia;
            inputs = inputs[(own + 1)..];
        }

        return sum;
    }
}
