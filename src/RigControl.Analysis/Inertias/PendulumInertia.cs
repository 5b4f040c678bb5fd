using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Inertias;

/// <summary>A rotor's inertia from hanging it on threads and timing its swings.</summary>
public static class PendulumInertia
{
    /// <summary>kg.m2, on two parallel threads.</summary>
    /// <param name="mass">kg.</param>
    /// <param name="distance">Of the threads, m.</param>
    /// <param name="length">Of each thread, m.</param>
    /// <param name="period">Of one swing to and fro, s; timed over many.</param>
    /// <param name="amplitude">rad from rest, 0 to 0.6; larger swings are slower.</param>
    public static Measured Bifilar(Input mass, Input distance, Input length, Input period, double amplitude = 0) =>
        Propagation.Of(x => Pendulum.Bifilar(x[0], x[1], x[2], x[3] / Pendulum.Amplitude(amplitude)), [mass, distance, length, period]);

    /// <summary>kg.m2, on three parallel threads on a circle of <paramref name="radius"/>, m.</summary>
    public static Measured Trifilar(Input mass, Input radius, Input length, Input period, double amplitude = 0) =>
        Propagation.Of(x => Pendulum.Trifilar(x[0], x[1], x[2], x[3] / Pendulum.Amplitude(amplitude)), [mass, radius, length, period]);

    /// <summary>The same on a platform that was timed alone before, kg.m2: what hangs together less the platform.</summary>
    public static Measured Less(Measured together, Measured platform) =>
        Propagation.Of(x => x[0] - x[1], [together.As("together"), platform.As("platform")]);

    /// <summary>Mean of several timings of <paramref name="swings"/> swings each, s per swing.</summary>
    /// <param name="timings">s, one or more.</param>
    /// <param name="resolution">Of the watch, or of the hand that stops it, s.</param>
    public static Input Period(IReadOnlyList<double> timings, int swings, double resolution)
    {
        double scatter = timings.Count > 1 ? Fitting.Summary.Deviation([.. timings]) / Math.Sqrt(timings.Count) : 0;
        Measured mean = Measured.Of(timings.Average(), new Input("scatter", 0, scatter, Math.Max(1, timings.Count - 1)), new Input("watch", 0, Measured.OfResolution(resolution)));
        return mean.Times(1.0 / swings).As("period");
    }
}
