using RigControl.Physics;

namespace RigControl.Analysis.Motors;

/// <summary>
/// Resistance and back-EMF on which most moments agree, whatever the rest say: least trimmed squares by concentration from seeded starts
/// (P. Rousseeuw and K. Van Driessen, Data Min. Knowl. Discov. 12 (2006) 29, from memory).
/// </summary>
internal static class MostAgree
{
    private const int Starts = 30;
    private const int Concentrations = 4;
    private const double Agreeing = 0.6;
    private const int MostMoments = 500;
    private const ulong Seed = 20_060_012;

    /// <summary>Ohm and V.s/rad.</summary>
    public static (double Resistance, double Emf) Of(IReadOnlyList<DriveMoment> moments)
    {
        int stride = Math.Max(1, moments.Count / MostMoments);
        DriveMoment[] some = [.. moments.Where((_, i) => i % stride == 0)];
        int count = (int)(Agreeing * some.Length);
        SplitMix chance = new(Seed);
        (double Resistance, double Emf) best = (0, 0);
        double least = double.MaxValue;
        double[] keys = new double[some.Length];
        for (int start = 0; start < Starts; start++)
        {
            DriveMoment[] kept = [.. Enumerable.Range(0, 4).Select(_ => some[(int)(chance.Uniform() * some.Length)])];
            (double Resistance, double Emf) line = Line(kept);
            double sum = double.MaxValue;
            for (int round = 0; round < Concentrations && double.IsFinite(line.Resistance); round++)
            {
                for (int i = 0; i < some.Length; i++)
                    keys[i] = Math.Abs(Off(some[i], line));
                DriveMoment[] sorted = (DriveMoment[])some.Clone();
                Array.Sort(keys, sorted);
                sum = keys.AsSpan(0, count).ToArray().Sum(k => k * k);
                line = Line(sorted[..count]);
            }

            if (sum < least && double.IsFinite(line.Resistance))
                (least, best) = (sum, line);
        }

        return best;
    }

    /// <summary>V that a moment lies above the line.</summary>
    public static double Off(DriveMoment m, (double Resistance, double Emf) line) => m.Duty * m.Voltage - line.Resistance * m.WindingCurrent - line.Emf * m.Speed;

    private static (double Resistance, double Emf) Line(ReadOnlySpan<DriveMoment> moments)
    {
        double ii = 0, iw = 0, ww = 0, iu = 0, wu = 0;
        foreach (DriveMoment m in moments)
        {
            (double i, double w, double u) = (m.WindingCurrent, m.Speed, m.Duty * m.Voltage);
            (ii, iw, ww, iu, wu) = (ii + i * i, iw + i * w, ww + w * w, iu + i * u, wu + w * u);
        }

        double determinant = ii * ww - iw * iw;
        return ((iu * ww - wu * iw) / determinant, (wu * ii - iu * iw) / determinant);
    }
}
