using System.Collections.Immutable;
using RigControl.Physics;

namespace RigControl.Campaigns;

/// <summary>Everything that one seed chooses: the plant, up to two faults with their times, and how the operator behaves.</summary>
public sealed record Scenario
{
    /// <summary>No fault is on later than this, s after the start.</summary>
    public const double FaultWindow = 14;

    /// <summary>How long the lid is opened after that where its contacts ask for it, s.</summary>
    public const double LidVisit = 0.3;

    public required ulong Seed { get; init; }

    public required ImmutableArray<PlannedFault> Faults { get; init; }

    /// <summary>Faults that checkers are not told of: planted, to show that they see.</summary>
    public ImmutableArray<PlannedFault> Undeclared { get; init; } = [];

    /// <summary>Chance in each scan that the operator does something at random.</summary>
    public required double Restlessness { get; init; }

    /// <summary>Of the plant, degC.</summary>
    public double Ambient { get; init; } = 20;

    /// <summary>Of the pack at the beginning, %.</summary>
    public double Charge { get; init; } = 100;

    /// <summary>As a share of a smooth disc's, %.</summary>
    public double Windage { get; init; } = 100;

    /// <summary>Whether the receiver's pulse drives through the gate, in place of the rig's own demands.</summary>
    public bool Gated { get; init; }

    /// <summary>What happens to the bench, whether checkers are told of it or not.</summary>
    public ImmutableArray<PlannedFault> AllFaults => Undeclared.Length == 0 ? Faults : [.. Faults, .. Undeclared];

    /// <summary>From when on nothing is wrong any more, s after the start; a run without faults is watched for as long as one with them.</summary>
    public double CalmFrom => AllFaults.IsEmpty ? FaultWindow : AllFaults.Max(f => f.To);

    /// <summary>Whether lid contacts may have contradicted each other, which only an opened and closed lid clears.</summary>
    public bool NeedsLidMoved => Has(FaultKind.LidContactStuck) || AnySensor(BenchChannels.Lid, BenchChannels.LidOpen);

    public static Scenario Of(ulong seed)
    {
        SplitMix chance = new(seed);
        int count = 1 + (int)(chance.Uniform() * 2);
        List<PlannedFault> faults = [];
        for (int i = 0; i < count; i++)
            faults.Add(PlannedFault.Of(ref chance));
        return new Scenario
        {
            Seed = seed, Faults = [.. faults], Restlessness = chance.Uniform() < 0.5 ? 0 : 0.01 * chance.Uniform(),
            Ambient = 10 + chance.Uniform() * 25, Charge = 60 + chance.Uniform() * 40, Windage = chance.Uniform() * 300,
            Gated = chance.Uniform() < 0.3,
        };
    }

    /// <summary>Whether something of this kind is wrong at a moment, s after the start.</summary>
    public bool IsOn(FaultKind kind, double now)
    {
        foreach (PlannedFault fault in AllFaults)
        {
            if (fault.Kind == kind && fault.IsOn(now))
                return true;
        }

        return false;
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

    /// <summary>Whether a board lies in this way.</summary>
    public bool Has(BoardLie lie)
    {
        foreach (PlannedFault fault in Faults)
        {
            if (fault.Lie == lie)
                return true;
        }

        return false;
    }

    /// <summary>Whether a sensor fault is about one of these channels.</summary>
    public bool AnySensor(params ReadOnlySpan<int> channels)
    {
        foreach (PlannedFault fault in Faults)
        {
            if (SensorFault.Is(fault.Kind) && channels.Contains(fault.Channel))
                return true;
        }

        return false;
    }
}

/// <summary>In what a board that confirms everything asked of it deceives the host.</summary>
public enum BoardLie
{
    None,

    /// <summary>It puts out a pulse of its own.</summary>
    OfPulse,

    /// <summary>It does not open the contactor.</summary>
    OfOpening,

    /// <summary>It does not close the contactor.</summary>
    OfClosing,
}

/// <summary>One fault.</summary>
/// <param name="From">s after the start.</param>
/// <param name="To">s after the start.</param>
/// <param name="Channel">Which of the bench's channels a sensor fault is about.</param>
/// <param name="Size">A share from 0 to 1 from which the fault takes its size.</param>
public sealed record PlannedFault(FaultKind Kind, double From, double To, int Channel, double Size)
{
    private static readonly FaultKind[] Kinds = Enum.GetValues<FaultKind>();

    public static PlannedFault Of(ref SplitMix chance)
    {
        FaultKind kind = Kinds[(int)(chance.Uniform() * Kinds.Length)];
        // What was never proven was not at the beginning either.
        double from = kind == FaultKind.ProofAbsent ? 0 : 0.5 + chance.Uniform() * (Scenario.FaultWindow - 1);
        double to = Math.Min(Scenario.FaultWindow, from + 0.005 + chance.Uniform() * 4);
        int channel = (int)(chance.Uniform() * BenchChannels.Count);
        return new PlannedFault(kind, from, to, SensorFault.ChannelOf(kind) ?? channel, chance.Uniform());
    }

    /// <summary>What a lying board does beside its words.</summary>
    public BoardLie Lie => Kind != FaultKind.BoardLies ? BoardLie.None : Size < 1.0 / 3 ? BoardLie.OfPulse : Size < 2.0 / 3 ? BoardLie.OfOpening : BoardLie.OfClosing;

    public bool IsOn(double now) => now >= From && now < To;
}
