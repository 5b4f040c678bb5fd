namespace RigControl.Analysis.Speed;

/// <summary>Readings gathered into means of neighbours, few enough to fit quickly; each with the scatter that its mean must have.</summary>
/// <param name="Times">s.</param>
/// <param name="Values">rad/s.</param>
/// <param name="Uncertainties">rad/s, above 0.</param>
/// <param name="Spreads">s2: variance, around its time, of the time over which each is a mean.</param>
internal sealed record Blocks(double[] Times, double[] Values, double[] Uncertainties, double[] Spreads)
{
    public const double RpmToRadPerSecond = Math.PI / 30;
    private const int Groups = 8;
    private const int FewestInGroup = 12;

    // Of the usual scatter; beyond it a reading is no reading.
    private const double Outlying = 5;

    /// <summary>At most about <paramref name="most"/> blocks; times from <paramref name="origin"/>.</summary>
    public static Blocks Of(SpeedSignal signal, double origin, int most)
    {
        int size = Math.Max(1, (signal.Count + most - 1) / most);
        int count = signal.Count / size;
        double[] times = new double[count], values = new double[count], noise = new double[count], spreads = new double[count];
        double[] scatter = Scatter(signal);
        for (int b = 0; b < count; b++)
        {
            (double time, double value, spreads[b]) = Mean(signal, b * size, (b + 1) * size);
            times[b] = time - origin;
            values[b] = value * RpmToRadPerSecond;
            noise[b] = scatter[Math.Min(Groups - 1, b * Groups / count)] / Math.Sqrt(size) * RpmToRadPerSecond;
        }

        return new Blocks(times, values, noise, spreads);
    }

    // What a reader times is turns: their mean speed is their number over the time that they took together. The mean of single speeds would
    // be too high, since a turn read too short is faster by more than one read too long is slower.
    private static (double Time, double Value, double Spread) Mean(SpeedSignal signal, int from, int to)
    {
        double weights = 0, sumOfTimes = 0, sum = 0, squares = 0;
        double first = signal.Times[from];
        for (int i = from; i < to; i++)
        {
            double turn = signal.Marks > 0 ? 60 / (signal.Marks * signal.Values[i]) : 0, time = signal.Times[i] - first;
            double weight = signal.Marks > 0 ? turn : 1;
            weights += weight;
            sumOfTimes += weight * time;
            sum += weight * signal.Values[i];
            squares += weight * (time * time + turn * turn / 12);
        }

        double middle = sumOfTimes / weights;
        return (first + middle, sum / weights, squares / weights - middle * middle);
    }

    /// <summary>The same with the scatter that a fit has left, group by group of neighbours, and without what lies far off it.</summary>
    public Blocks Reweighted(double[] residuals)
    {
        double[] noise = new double[Times.Length];
        List<int> kept = [];
        int groups = Math.Clamp(Times.Length / FewestInGroup, 1, Groups);
        for (int g = 0; g < groups; g++)
        {
            int from = Times.Length * g / groups, to = Times.Length * (g + 1) / groups;
            double usual = Math.Max(Fitting.Summary.Median([.. residuals[from..to].Select(Math.Abs)]) / 0.6745, 1e-9 * Math.Abs(Values[from]));
            int[] near = [.. Enumerable.Range(from, to - from).Where(i => Math.Abs(residuals[i]) <= Outlying * usual)];
            double root = Math.Sqrt(near.Select(i => residuals[i] * residuals[i]).DefaultIfEmpty(usual * usual).Average());
            foreach (int i in near)
                noise[i] = Math.Max(root, 1e-12);
            kept.AddRange(near);
        }

        return new Blocks([.. kept.Select(i => Times[i])], [.. kept.Select(i => Values[i])], [.. kept.Select(i => noise[i])], [.. kept.Select(i => Spreads[i])]);
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
