using RigControl.Analysis.Figures;
using RigControl.Analysis.Inertias;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>The bench of a run once more, with a ring on its rotor.</summary>
internal static class AddedRun
{
    // Of the ring's inertia.
    private const double Known = 0.005;

    // Between the two in one trace, s.
    private const double Pause = 5;

    /// <summary>The rotor's own inertia, with its truth.</summary>
    public static (string Name, Figure? Figure, double Truth) Of(SimulatedRun alone)
    {
        Plan plan = alone.Plan;
        SplitMix chance = new(plan.Seed * 41 + 7);
        double own = plan.Bench.Rotor.Inertia, ring = own * chance.Uniform(0.4, 1.2);
        SimulatedRun together = new(plan with { Seed = plan.Seed + 1_000_000_007, Bench = plan.Bench with { Rotor = plan.Bench.Rotor with { Inertia = own + ring } } });
        Input declared = new("added inertia", ring * (1 + Known * chance.Bell()), Known * ring);
        return ("inertia", InertiaOfTrace.Of(new FigureInput(Joined(alone.Channels, together.Channels), null, FigureContext.UsualRestSpeed), declared), own);
    }

    private static Trace Joined(IReadOnlyDictionary<string, Series> first, IReadOnlyDictionary<string, Series> second)
    {
        double later = first.Values.Max(s => s.Times[^1]) + Pause;
        string[] names = [ChannelNames.RotorSpeed, ChannelNames.OutputThrottle];
        Dictionary<string, Series> channels = names.ToDictionary(
            n => n, n => first[n] with { Times = [.. first[n].Times, .. second[n].Times.Select(t => t + later)], Values = [.. first[n].Values, .. second[n].Values] });
        return new Trace(channels, SegmentFinder.Of(channels).Segments);
    }
}
