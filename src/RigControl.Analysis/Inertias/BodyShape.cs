using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Inertias;

/// <summary>A shape whose inertia a formula gives.</summary>
/// <param name="Name">As a person writes it.</param>
/// <param name="Lengths">What its lengths are called, in their order, each in m.</param>
/// <param name="Inertia">kg.m2 about the own axis, from the mass in kg and the lengths in m.</param>
public sealed record BodyShape(string Name, IReadOnlyList<string> Lengths, Formula Inertia)
{
    /// <summary>Every shape there is a formula for.</summary>
    public static IReadOnlyList<BodyShape> All { get; } =
    [
        new("disc", ["radius"], x => Body.Disc(x[0], x[1]).Inertia),
        new("ring", ["outer radius", "inner radius"], x => Body.Ring(x[0], x[1], x[2]).Inertia),
        new("thin-ring", ["radius"], x => Body.ThinRing(x[0], x[1]).Inertia),
        new("rod", ["length"], x => Body.Rod(x[0], x[1]).Inertia),
        new("bar", ["length", "width"], x => Body.Bar(x[0], x[1], x[2]).Inertia),
        new("sphere", ["radius"], x => Body.Sphere(x[0], x[1]).Inertia),
    ];
}
