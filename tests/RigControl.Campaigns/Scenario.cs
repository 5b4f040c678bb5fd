using RigControl.Physics;

namespace RigControl.Campaigns;

/// <summary>Everything that one seed chooses: the plant, up to two faults with their times, and how the operator behaves.</summary>
public sealed record Scenario
{
    /// <summary>Length of the part of a run in which faults may be on, s.</summary>
    public const double FaultWindow = 14;

    public required ulong Seed { get; init; }

    public required IReadOnlyList<PlannedFault> Faults { get; init; }

    /// <summary>Chance in each scan that the operator does something at random.</summary>
    public required double Restlessness { get; init; }

    public static Scenario Of(ulong seed)
    {
        SplitMix chance = new(seed);
        int count = 1 + (int)(chance.Uniform() * 2);
        List<PlannedFault> faults = [];
        for (int i = 0; i < count; i++)
            faults.Add(PlannedFault.Of(ref chance));
        return new Scenario { Seed = seed, Faults = faults, Restlessness = chance.Uniform() < 0.5 ? 0 : 0.01 * chance.Uniform() };
    }

    /// <summary>Whether a fault of this kind belongs to the run.</summary>
    public bool Has(params ReadOnlySpan<FaultKind> kinds)
    {
        foreach (PlannedFault fault in Faults)
        {
            if (kinds.Contains(fault.Kind))
                return true;
        }

        return false;
    }
}

/// <summary>One fault.</summary>
/// <param name="From">s after the start.</param>
/// <param name="To">s after the start.</param>
/// <param name="Channel">Which of the bench's channels a sensor fault is about.</param>
/// <param name="Size">A share from 0 to 1 from which the fault takes its size.</param>
public sealed record PlannedFault(FaultKind Kind, double From, double To, int Channel, double Size)
{
    public static PlannedFault Of(ref SplitMix chance)
    {
        FaultKind[] kinds = Enum.GetValues<FaultKind>();
        FaultKind kind = kinds[(int)(chance.Uniform() * kinds.Length)];
        double from = 0.5 + chance.Uniform() * (Scenario.FaultWindow - 1);
        double to = Math.Min(Scenario.FaultWindow, from + 0.005 + chance.Uniform() * 4);
        return new PlannedFault(kind, from, to, (int)(chance.Uniform() * 15), chance.Uniform());
    }

    public bool IsOn(double now) => now >= From && now < To;
}
