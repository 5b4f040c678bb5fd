using System.Globalization;
using RigControl.Model.Rig;

namespace RigControl.Runtime.Failsafe;

/// <summary>What a rotor stores at the ceiling of its verification: a number to hold against what stands around it, no limit.</summary>
/// <param name="Ceiling">As the article declares it.</param>
/// <param name="Rotor">As the article declares it; null where it has none.</param>
/// <param name="IsRemoved">Whether the rotor is said to be off.</param>
public sealed record CeilingEnergy(VerificationCeiling Ceiling, Rotor? Rotor, bool IsRemoved)
{
    private const double RadPerSecond = Math.PI / 30;

    /// <summary>Half the inertia times the square of the angular speed, J; null where nothing is declared that would store it.</summary>
    public double? Energy => Rotor is null ? null : 0.5 * Rotor.Inertia * Math.Pow(Ceiling.Speed * RadPerSecond, 2);

    /// <summary>A sentence for the beginning and for the result.</summary>
    public string Sentence => string.Create(CultureInfo.InvariantCulture, $"the ceiling is {Ceiling.Throttle * 100:0.#} % throttle and {Ceiling.Speed:0} rpm: {Stored}");

    private string Stored => Energy is not { } energy ? "the article declares no rotor, and what the motor's own stores is not known"
        : IsRemoved ? string.Create(CultureInfo.InvariantCulture, $"the rotor is said to be off; with it on there would be {energy:0.##} J")
        : string.Create(CultureInfo.InvariantCulture, $"the rotor stores {energy:0.##} J there, with its declared {Rotor!.Inertia:0.########} kg.m2; see that what stands around it holds that");

    /// <summary>The same to whoever arms the power for the first time. Whether the rotor is off is not known there.</summary>
    public string Asked => string.Create(CultureInfo.InvariantCulture, $"Power comes on from here: at most {Ceiling.Throttle * 100:0.#} % throttle and {Ceiling.Speed:0} rpm, {Turning}. Arm (a) only if what stands around it holds that.");

    private string Turning => Energy is { } energy
        ? string.Create(CultureInfo.InvariantCulture, $"at which the rotor, where it is on, stores {energy:0.##} J")
        : "and what the motor's own rotor stores there is not known";

    /// <summary>Null where the article may not be turned to verify it.</summary>
    public static CeilingEnergy? Of(Article article, bool isRemoved) => article.Verification is { } ceiling ? new(ceiling, article.Rotor, isRemoved) : null;
}
