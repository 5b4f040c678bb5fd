using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Speed;

/// <summary>Speed from a clip: turns counted over frames. Sampling theorem; interval of two frames as in JCGM 101:2008, 6.4.4 (from memory).</summary>
public static class FrameCount
{
    /// <summary>Highest speed, rpm, that marks alike on a rotor tell without doubt; half of it where the direction of turning is not known.</summary>
    /// <param name="rate">Frames a second, above 0.</param>
    /// <param name="marks">Marks alike, evenly spaced, 1 and above.</param>
    public static double Limit(double rate, int marks, bool directionKnown) => 60 * rate / marks / (directionKnown ? 1 : 2);

    /// <summary>rpm from whole turns between two frames.</summary>
    /// <param name="turns">Above 0.</param>
    /// <param name="frames">From the first passage to the last, above 0.</param>
    /// <exception cref="NoFigureException">The clip cannot tell this speed from another.</exception>
    public static Measured Of(double turns, double frames, double rate, int marks = 1, bool directionKnown = true)
    {
        double speed = 60 * turns * rate / frames;
        double limit = Limit(rate, marks, directionKnown);
        if (speed >= limit)
            throw new NoFigureException($"{speed:0} rpm cannot be told from slower ones at {rate:0} frames a second: below {limit:0} rpm it can");
        // Each passage lies anywhere within its frame: the difference of two of them is triangular.
        Input count = new("frames", frames, 1 / Math.Sqrt(6), Shape: Shape.Triangular);
        return Propagation.Of(x => 60 * turns * rate / x[0], [count]);
    }

    /// <summary>Every speed, rpm, up to <paramref name="highest"/> that looks the same in a clip, the slowest first.</summary>
    public static IEnumerable<double> Aliases(double speed, double rate, int marks, double highest, bool directionKnown)
    {
        double step = 60 * rate / marks;
        double rest = speed % step;
        double[] places = directionKnown ? [rest] : rest < step - rest ? [rest, step - rest] : [step - rest, rest];
        for (double turn = 0; turn + places[0] <= highest; turn += step)
        {
            foreach (double place in places)
            {
                if (turn + place <= highest)
                    yield return turn + place;
            }
        }
    }
}
