using RigControl.Analysis.Fitting;
using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Power;

/// <summary>Voltage, current and power of the pack at common moments, those of the current.</summary>
internal static class PackSeries
{
    private const int MostGaps = 4096;

    /// <summary>The values of one channel at the times of another, by a straight line between samples.</summary>
    public static double[] At(Series series, double[] times)
    {
        double[] values = new double[times.Length];
        int k = 0;
        for (int i = 0; i < times.Length; i++)
        {
            while (k + 1 < series.Count && series.Times[k + 1] <= times[i])
                k++;
            double before = series.Times[k];
            values[i] = k + 1 >= series.Count || times[i] <= before
                ? series.Values[k]
                : series.Values[k] + (series.Values[k + 1] - series.Values[k]) * (times[i] - before) / (series.Times[k + 1] - before);
        }

        return values;
    }

    /// <summary>W at the times of the current.</summary>
    public static Series Power(Series voltage, Series current)
    {
        double[] power = At(voltage, current.Times);
        for (int i = 0; i < power.Length; i++)
            power[i] *= current.Values[i];
        return new Series("W", current.Resolution * voltage.Values.Max(), current.Times, power);
    }

    /// <summary>
    /// Scatter of single samples: from second differences, so that neither a ramp nor a bend counts, and their median, so that
    /// neither a peak nor a step does; at least what the resolution hides.
    /// </summary>
    public static double Noise(Series series) => Speed.SpeedSignal.NoiseOf(series.Values, series.Resolution);

    /// <summary>Usual time between samples, s.</summary>
    public static double Period(Series series)
    {
        if (series.Count < 2)
            return 0;
        int stride = 1 + (series.Count - 2) / MostGaps;
        double[] gaps = new double[(series.Count - 1 + stride - 1) / stride];
        for (int k = 0, i = 1; k < gaps.Length; k++, i += stride)
            gaps[k] = series.Times[i] - series.Times[i - 1];
        return Summary.Median(gaps);
    }
}
