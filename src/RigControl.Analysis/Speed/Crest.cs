using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Speed;

/// <summary>
/// The highest level behind values that scatter: the top of a parabola through values around the highest. The highest value itself stands
/// above it by chance, and so would the highest of many parabolas: one half of the values says where, the other how high.
/// </summary>
internal static class Crest
{
    // Values to each side of the narrowest parabola, and of the widest.
    private const int Narrowest = 3;
    private const int Widest = 400;

    // Fewer values are not parted into halves.
    private const int Fewest = 16;

    // Chance refuses a width now and then; a shape that no parabola describes refuses all wider ones too.
    private const int Refusals = 2;

    // Standard uncertainties from which a slope or a bend counts. Both are looked at, in each half.
    private const double Distinct = 2.5;

    /// <summary>The level; null where even the narrowest parabola does not describe the values: a spike or a step.</summary>
    /// <param name="times">s, rising.</param>
    /// <param name="noise">Scatter of single values, above 0.</param>
    public static Measured? Of(double[] times, double[] values, double noise)
    {
        int widest = 0, refused = 0;
        double least = double.NegativeInfinity;
        for (int reach = Narrowest; 2 * reach + 1 <= values.Length && reach <= Widest && refused < Refusals; reach = reach * 3 / 2 + 1)
        {
            int middle = HighestMean(values, 0, 1, reach);
            Parabola parabola = Around(times, values, middle, reach, noise);
            double top = parabola.Top(Distinct, times[middle - reach], times[middle + reach]);
            double level = parabola.At(top), known = parabola.UncertaintyAt(top);
            // A lower level that lasts for longer is another one: wide windows would leave a short crest for it.
            bool describes = parabola.Describes(noise) && level > least - Distinct * known;
            if (!describes && widest == 0)
                return null;
            (widest, refused) = describes ? (reach, 0) : (widest, refused + 1);
            if (describes)
                least = Math.Max(least, level - known * (Distinct + ByChance(values.Length / (2.0 * reach + 1))));
        }

        // The widest one may be off by nearly what would have been noticed. In half its width a crest leaves its parabola by an eighth of
        // that, a corner by half, and scatter shows by the root of two more.
        return widest == 0 ? null : Level(times, values, Math.Max(Narrowest, widest / 2), noise);
    }

    // About how far the highest of so many lies above what they scatter around, in their standard deviation (extreme values of a normal law).
    private static double ByChance(double count) => Math.Sqrt(2 * Math.Log(count));

    private static Measured Level(double[] times, double[] values, int reach, double noise)
    {
        if (2 * reach + 1 < Fewest)
            return Top(times, values, HighestMean(values, 0, 1, reach), 0, 1, reach, noise);
        // Every second value from the first, and every second one from the second. The place by some, the height by others, whose scatter does not
        // know where the first ones stand high.
        Measured Elsewhere(int places, int heights) => Top(times, values, Math.Min(HighestMean(values, places, 2, reach / 2), (values.Length - 1 - heights) / 2 - reach / 2), heights, 2, reach / 2, noise);
        Measured a = Elsewhere(0, 1), b = Elsewhere(1, 0);
        return Measured.Of(0.5 * (a.Value + b.Value), new Input("scatter of the samples", 0, 0.5 * Measured.Combine(a.Uncertainty, b.Uncertainty)));
    }

    // Of every step-th value from the offset. Within the window, and up to the very first or last moment of the record where the window is the
    // first or the last of these values: of an odd number one half holds one more.
    private static Measured Top(double[] times, double[] values, int middle, int offset, int step, int reach, double noise)
    {
        int[] window = [.. Enumerable.Range(middle - reach, 2 * reach + 1).Select(k => offset + step * k)];
        double[] at = [.. window.Select(i => times[i])];
        Parabola parabola = Around(at, [.. window.Select(i => values[i])], reach, reach, noise);
        double top = parabola.Top(Distinct, middle == reach ? times[0] : at[0], window[^1] + 2 * step >= values.Length ? times[^1] : at[^1]);
        return Measured.Of(parabola.At(top), new Input("scatter of the samples", 0, parabola.UncertaintyAt(top)));
    }

    private static Parabola Around(double[] times, double[] values, int middle, int reach, double noise) => new(times, values, middle - reach, 2 * reach + 1, noise);

    // Middle of the window whose mean is the highest, counted among every step-th value from the offset.
    private static int HighestMean(double[] values, int offset, int step, int reach)
    {
        double sum = 0;
        int width = step * (2 * reach + 1), highest = offset;
        for (int i = offset; i < offset + width; i += step)
            sum += values[i];
        double most = sum;
        for (int i = offset + width; i < values.Length; i += step)
        {
            sum += values[i] - values[i - width];
            if (sum > most)
                (most, highest) = (sum, i - width + step);
        }

        return (highest - offset) / step + reach;
    }
}
