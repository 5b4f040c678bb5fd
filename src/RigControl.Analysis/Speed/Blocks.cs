namespace RigControl.Analysis.Speed;

/// <summary>Readings gathered into means of neighbours, few enough to fit quickly; each with the scatter that its mean must have.</summary>
/// <param name="Times">s.</param>
/// <param name="Values">rad/s.</param>
/// <param name="Uncertainties">rad/s, above 0.</param>
internal sealed record Blocks(double[] Times, double[] Values, double[] Uncertainties)
{
    public const double RpmToRadPerSecond = Math.PI / 30;
    private const int Groups = 8;

    /// <summary>At most about <paramref name="most"/> blocks; times from <paramref name="origin"/>.</summary>
    public static Blocks Of(SpeedSignal signal, double origin, int most)
    {
        int size = Math.Max(1, (signal.Count + most - 1) / most);
        int count = signal.Count / size;
        double[] times = new double[count], values = new double[count], noise = new double[count];
        double[] scatter = Scatter(signal);
        for (int b = 0; b < count; b++)
        {
            double sumOfTimes = 0, sum = 0;
            for (int i = b * size; i < (b + 1) * size; i++)
            {
                sumOfTimes += signal.Times[i];
                sum += signal.Values[i];
            }

            times[b] = sumOfTimes / size - origin;
            values[b] = sum / size * RpmToRadPerSecond;
            noise[b] = scatter[Math.Min(Groups - 1, b * Groups / count)] / Math.Sqrt(size) * RpmToRadPerSecond;
        }

        return new Blocks(times, values, noise);
    }

    // A period is known to a time, so that a fast reading scatters more than a slow one.
    private static double[] Scatter(SpeedSignal signal)
    {
        double[] scatter = new double[Groups];
        double floor = 1e-6 * signal.Values.DefaultIfEmpty(1).Max();
        for (int g = 0; g < Groups; g++)
        {
            int from = signal.Count * g / Groups, to = signal.Count * (g + 1) / Groups;
            scatter[g] = Math.Max(floor, SpeedSignal.NoiseOf(signal.Values.AsSpan(from, to - from), signal.Resolution));
        }

        return scatter;
    }
}
