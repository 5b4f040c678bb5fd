using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Inertias;

/// <summary>
/// A rotor's inertia from two coast-downs, with and without a ring of known inertia: the same drag slows the heavier rotor less
/// (retardation test; handbook electrical engineering, from memory).
/// </summary>
public static class AddedInertia
{
    private const int Places = 9;

    /// <summary>kg.m2 of the rotor alone.</summary>
    /// <param name="alone">Coast-down without what is added.</param>
    /// <param name="together">With it.</param>
    /// <param name="added">kg.m2.</param>
    /// <exception cref="NoFigureException">The two hardly differ, or share no speeds.</exception>
    public static Measured Of(CoastDownFit alone, CoastDownFit together, Input added)
    {
        (Measured light, Measured heavy) = Slowing(alone, together);
        if (!(light.Value - heavy.Value > 3 * Measured.Combine(light.Uncertainty, heavy.Uncertainty)))
            throw new NoFigureException("what was added hardly changed the coast-down: add more");
        return Propagation.Of(x => x[2] * x[1] / (x[0] - x[1]), [light.As("coast-down alone"), heavy.As("coast-down with what is added"), added]);
    }

    /// <summary>rad/s2 of both, the mean over the speeds that they share; single speeds hang together too much to count on their own.</summary>
    internal static (Measured Light, Measured Heavy) Slowing(CoastDownFit alone, CoastDownFit together)
    {
        double high = Math.Min(alone.Trajectory.Initial, together.Trajectory.Initial), low = 0.3 * high;
        double[] speeds = [.. Enumerable.Range(0, Places).Select(i => low + (high - low) * i / (Places - 1))];
        return (alone.OfFit(c => Mean(c, speeds), "coast-down alone"), together.OfFit(c => Mean(c, speeds), "coast-down with what is added"));
    }

    private static double Mean(Physics.CoastDown trajectory, double[] speeds)
    {
        double sum = 0;
        foreach (double speed in speeds)
            sum += trajectory.Slowing(speed);
        return sum / speeds.Length;
    }
}
