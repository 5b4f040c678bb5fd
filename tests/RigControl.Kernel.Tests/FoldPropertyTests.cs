namespace RigControl.Kernel.Tests;

/// <summary>The fold against a slow and obvious one, over random samples. A failure prints its seed.</summary>
public class FoldPropertyTests
{
    private const int Scans = 60;

    [Fact]
    public void Any_stream_of_samples_folds_as_the_obvious_way_does()
    {
        HashSet<BadCause> seen = [];
        for (int seed = 1; seed <= 3000; seed++)
            Compare(seed, seen);
        // A stream that never makes a cause would not have tried it.
        Assert.Equal(Enum.GetValues<BadCause>().Order(), seen.Order());
    }

    [Fact]
    public void Worst_values_hold_every_sound_sample_between_them_in_any_order()
    {
        for (int seed = 1; seed <= 500; seed++)
        {
            Random random = new(seed);
            Sample[] samples = [.. Enumerable.Range(0, 20).Select(_ => Some(random, TimeSpan.FromMilliseconds(20)))];
            ImageEntry forward = Folded(samples);
            random.Shuffle(samples);
            ImageEntry shuffled = Folded(samples);
            Assert.True((forward.Minimum, forward.Maximum, forward.Quality, forward.Age) == (shuffled.Minimum, shuffled.Maximum, shuffled.Quality, shuffled.Age), $"seed {seed}");
        }
    }

    private static ImageEntry Folded(Sample[] samples)
    {
        FoldBench fold = new();
        foreach (Sample sample in samples)
            fold.Add(sample with { Quality = Quality.Good, Value = Math.Clamp(double.IsFinite(sample.Value) ? sample.Value : 0, 0, 100) });
        return fold.Close(60);
    }

    private static void Compare(int seed, HashSet<BadCause> seen)
    {
        Random random = new(seed);
        FoldBench fold = new(frozenAfter: seed % 3 == 0 ? 5 : 0);
        ObviousFold obvious = new(fold.Channels[0].Declaration);
        TimeSpan now = TimeSpan.Zero;
        for (int scan = 1; scan <= Scans; scan++)
        {
            now += TimeSpan.FromMilliseconds(random.Next(20) == 0 ? -random.Next(40) : 5);
            for (int i = random.Next(5); i > 0; i--)
            {
                Sample sample = Some(random, now);
                fold.Add(sample);
                obvious.Add(sample);
            }

            ImageEntry expected = obvious.Close(now), folded = fold.Close(now.TotalMilliseconds);
            seen.Add(folded.Cause);
            Assert.True(expected.Equals(folded), $"seed {seed}, scan {scan}: {folded.Cause} {folded.Last} instead of {expected.Cause} {expected.Last}");
        }
    }

    private static Sample Some(Random random, TimeSpan now)
    {
        double value = random.Next(12) switch
        {
            0 => double.NaN,
            1 => double.PositiveInfinity,
            2 => random.Next(2) == 0 ? -1001 : 20001,
            < 6 => 7,
            _ => random.Next(100),
        };
        double behind = random.Next(15) switch { 0 => -30, 1 => 200, _ => random.Next(8) };
        return new Sample(0, (Quality)Math.Min(random.Next(12), 2), now - TimeSpan.FromMilliseconds(behind), value);
    }
}
