using RigControl.Model.Signals;

namespace RigControl.Logbook.Tests.Support;

/// <summary>Samples as devices send them, and as no device would.</summary>
internal static class SampleMaker
{
    /// <summary>Resolutions of the first channels; channels beyond have none.</summary>
    public static readonly double[] Resolutions = [1, 0.1, 0.01, 0, 1.0 / 3, 1e-9, 1e9, double.NaN, double.PositiveInfinity, -1, 60.0 / 4096];

    public static readonly ReadingStep[] Steps = [.. Resolutions.Select(r => new ReadingStep(r))];

    /// <summary>Stretches in a steady order, with jitter, gaps and steps back, and stretches of anything at all.</summary>
    public static Sample[] Any(Random random, int count)
    {
        List<Sample> samples = [];
        long time = random.NextInt64(long.MinValue, long.MaxValue);
        while (samples.Count < count)
        {
            if (random.Next(3) == 0)
                AddChaos(random, samples, ref time);
            else
                AddSteady(random, samples, ref time);
        }
        return [.. samples.Take(count)];
    }

    private static void AddSteady(Random random, List<Sample> samples, ref long time)
    {
        int channels = random.Next(1, Resolutions.Length + 3);
        int jitter = random.Next(2) * random.Next(1000);
        for (int frame = random.Next(20); frame > 0; frame--)
        {
            time = unchecked(time + 10_000 + random.Next(jitter + 1));
            for (int channel = 0; channel < channels; channel++)
                samples.Add(new Sample((ushort)channel, Quality.Good, TimeSpan.FromTicks(time), ValueOf(random, channel)));
        }
    }

    private static void AddChaos(Random random, List<Sample> samples, ref long time)
    {
        for (int i = random.Next(20); i > 0; i--)
        {
            if (random.Next(2) == 0)
                time = random.NextInt64(long.MinValue, long.MaxValue);
            ushort channel = (ushort)(random.Next(4) == 0 ? random.Next(65536) : random.Next(12));
            samples.Add(new Sample(channel, (Quality)random.Next(random.Next(2) == 0 ? 3 : 65536), TimeSpan.FromTicks(time), ValueOf(random, channel)));
        }
    }

    private static double ValueOf(Random random, int channel) =>
        Doubles.Any(random, channel < Resolutions.Length ? Resolutions[channel] : 1);

    /// <summary>Channels of a 12-bit sensor each, all at once every millisecond, with noise around a slow drift.</summary>
    public static Sample[] TwelveBit(Random random, int channels, int frames, double noise)
    {
        Sample[] samples = new Sample[channels * frames];
        for (int i = 0; i < samples.Length; i++)
        {
            double wave = 2048 + 1500 * Math.Sin(i / channels * 0.002 + i % channels);
            double count = Math.Clamp(Math.Round(wave + noise * Normal(random)), 0, 4095);
            samples[i] = new Sample((ushort)(i % channels), Quality.Good, TimeSpan.FromMilliseconds(i / channels), count * TwelveBitResolution);
        }
        return samples;
    }

    public const double TwelveBitResolution = 60.0 / 4096;

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    /// <summary>Everything of a sample as numbers, so that a NaN equals itself and a minus zero does not equal zero.</summary>
    public static (ushort, ushort, long, ulong) Bits(Sample sample) =>
        (sample.Channel, (ushort)sample.Quality, sample.At.Ticks, BitConverter.DoubleToUInt64Bits(sample.Value));
}
