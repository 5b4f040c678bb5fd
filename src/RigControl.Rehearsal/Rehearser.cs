using RigControl.Model.Signals;
using RigControl.Rehearsal.Bench;
using RigControl.Rehearsal.Results;
using RigControl.Rehearsal.Running;

namespace RigControl.Rehearsal;

/// <summary>Runs a plan on many benches that may be the real one, on all cores, and says what they have in common.</summary>
public static class Rehearser
{
    /// <summary>Benches tried unless told otherwise: enough for the ends of a 95 % interval.</summary>
    public const int UsualSamples = 500;

    /// <summary>Figures predicted where the procedure names none.</summary>
    public static readonly IReadOnlyList<string> UsualFigures =
        ["spin-up-time", "peak-speed", "steady-speed", "tip-speed", "stored-energy", "peak-current", "charge-used", "temperature-rise", "coast-down-time"];

    /// <summary>Channels of which bands are kept.</summary>
    internal static readonly int[] Banded =
        [BenchChannels.Speed, BenchChannels.Current, BenchChannels.Voltage, BenchChannels.MotorHeat, BenchChannels.ControllerHeat];

    /// <param name="plan">What is to be run.</param>
    /// <param name="samples">1 to 100000 benches.</param>
    /// <param name="seed">The same seed gives the same prediction, on any number of cores.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number of samples is out of its range.</exception>
    public static RehearsalResult Rehearse(RehearsalPlan plan, int samples, ulong seed)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(samples, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(samples, 100_000);
        IReadOnlyList<string> figures = plan.Procedure.Figures.Count > 0 ? plan.Procedure.Figures : UsualFigures;
        VirtualResult[] results = new VirtualResult[samples];
        BandTable bands = NewBands(plan);
        Parallel.For(0, samples, () => NewBands(plan), (i, _, own) => Sample(plan, figures, seed, results, i, own), own =>
        {
            lock (bands)
                bands.Join(own);
        });
        IReadOnlyList<Channel> channels = RehearsalPlan.Channels(plan.Rig);
        return Summary.Of(plan, results) with { Bands = [.. Banded.Select((c, i) => bands.Of(i, channels[c].Name))] };
    }

    private static BandTable NewBands(RehearsalPlan plan) => new(Banded.Length, plan.Configuration.StepCount);

    // The first bench is the declared one; each of the others depends on its own number alone.
    private static BandTable Sample(RehearsalPlan plan, IReadOnlyList<string> figures, ulong seed, VirtualResult[] results, int i, BandTable bands)
    {
        ulong own = new Physics.SplitMix(seed * 0xD1342543DE82EF95 + (ulong)i).Next();
        Physics.BenchParameters bench = i == 0 ? plan.Likely : BenchDraw.Draw(plan.Likely, plan.Spread, own);
        results[i] = new VirtualRun(plan, bench, own, bands).Run(figures);
        return bands;
    }
}
