namespace RigControl.Kernel.Tests;

/// <summary>What a decision sees of the samples since the last scan: the worst, never only the latest.</summary>
public class FoldTests
{
    [Trait("Requirement", "SAF-024")]
    [Fact]
    public void A_spike_between_two_scans_is_seen()
    {
        ImageEntry entry = new FoldBench().Add(1, 20).Add(2, 95).Add(3, 5).Add(4, 21).Close(5);
        Assert.Equal((21, 5, 95, 4), (entry.Last, entry.Minimum, entry.Maximum, entry.Count));
        Assert.Equal((TimeSpan.FromMilliseconds(3), TimeSpan.FromMilliseconds(2)), (entry.MinimumAt, entry.MaximumAt));
        Assert.True(entry.IsUsable);
    }

    [Fact]
    public void A_spike_is_seen_in_one_scan_and_gone_in_the_next()
    {
        FoldBench fold = new FoldBench().Add(1, 95).Add(2, 20);
        Assert.Equal(95, fold.Close(5).Maximum);
        Assert.Equal(21, fold.Add(6, 21).Close(10).Maximum);
    }

    [Fact]
    public void A_scan_without_samples_sees_the_latest_value_getting_older()
    {
        FoldBench fold = new FoldBench().Add(1, 10).Add(2, 20);
        fold.Close(5);
        ImageEntry entry = fold.Close(10);
        Assert.Equal((20, 20, 20, 0), (entry.Last, entry.Minimum, entry.Maximum, entry.Count));
        Assert.Equal((TimeSpan.FromMilliseconds(8), TimeSpan.FromMilliseconds(2), Quality.Good), (entry.Age, entry.MaximumAt, entry.Quality));
    }

    [Fact]
    public void Of_equal_extremes_the_first_one_gives_the_time()
    {
        ImageEntry entry = new FoldBench().Add(1, 10).Add(2, 10).Close(5);
        Assert.Equal((TimeSpan.FromMilliseconds(1), TimeSpan.FromMilliseconds(1)), (entry.MinimumAt, entry.MaximumAt));
    }

    [Fact]
    public void Samples_out_of_order_count_as_worst_values_but_never_as_the_latest()
    {
        ImageEntry entry = new FoldBench().Add(3, 30).Add(1, 90).Add(2, 5).Close(5);
        Assert.Equal((30, 5, 90, 3), (entry.Last, entry.Minimum, entry.Maximum, entry.Count));
        Assert.Equal(TimeSpan.FromMilliseconds(2), entry.Age);
    }

    [Fact]
    public void A_channel_that_never_had_a_sample_is_bad()
    {
        ImageEntry entry = new FoldBench().Close(5);
        Assert.Equal((Quality.Bad, BadCause.Never), (entry.Quality, entry.Cause));
    }

    [Theory]
    [InlineData(double.NaN, BadCause.NotFinite)]
    [InlineData(double.PositiveInfinity, BadCause.NotFinite)]
    [InlineData(double.NegativeInfinity, BadCause.NotFinite)]
    [InlineData(-1000.5, BadCause.OutOfRange)]
    [InlineData(20000.5, BadCause.OutOfRange)]
    public void A_value_that_cannot_be_true_is_bad_and_spoils_no_extreme(double value, BadCause cause)
    {
        ImageEntry entry = new FoldBench().Add(1, 10).Add(2, value).Add(3, 12).Close(5);
        Assert.Equal((Quality.Bad, cause), (entry.Quality, entry.Cause));
        Assert.Equal((10, 12), (entry.Minimum, entry.Maximum));
    }

    [Theory]
    [InlineData(-1000)]
    [InlineData(20000)]
    public void The_ends_of_the_range_can_be_true(double value) => Assert.True(new FoldBench().Add(1, value).Close(5).IsUsable);

    [Fact]
    public void One_bad_sample_is_not_mended_by_a_later_good_one_in_the_same_scan()
    {
        FoldBench fold = new FoldBench().Add(1, 10, Quality.Bad).Add(2, 10);
        Assert.Equal(BadCause.Reported, fold.Close(5).Cause);
        Assert.True(fold.Add(6, 10).Close(10).IsUsable);
    }

    [Fact]
    public void The_first_of_two_bad_causes_is_told() =>
        Assert.Equal(BadCause.OutOfRange, new FoldBench().Add(1, 1e6).Add(2, double.NaN).Close(5).Cause);

    [Fact]
    public void A_bad_latest_sample_stays_bad_until_a_good_one_comes()
    {
        FoldBench fold = new FoldBench().Add(1, 10).Add(2, double.NaN);
        fold.Close(5);
        Assert.Equal((Quality.Bad, BadCause.NotFinite), (fold.Close(10).Quality, fold.Close(15).Cause));
        Assert.True(fold.Add(16, 10).Close(20).IsUsable);
    }

    [Fact]
    public void A_late_bad_sample_spoils_its_scan_but_not_the_next()
    {
        FoldBench fold = new FoldBench().Add(3, 10).Add(1, double.NaN);
        Assert.False(fold.Close(5).IsUsable);
        Assert.True(fold.Close(10).IsUsable);
    }

    [Fact]
    public void The_worst_quality_of_the_interval_counts()
    {
        FoldBench fold = new FoldBench().Add(1, 10, Quality.Uncertain).Add(2, 10);
        Assert.Equal(Quality.Uncertain, fold.Close(5).Quality);
        Assert.Equal(Quality.Good, fold.Close(10).Quality);
    }

    [Trait("Requirement", "SAF-018")]
    [Theory]
    [InlineData(51, Quality.Good)]
    [InlineData(51.1, Quality.Bad)]
    public void A_reading_that_is_too_old_is_bad(double now, Quality quality) => Assert.Equal(quality, new FoldBench().Add(1, 10).Close(now).Quality);

    [Fact]
    public void A_reading_from_the_future_is_bad()
    {
        ImageEntry entry = new FoldBench().Add(6, 10).Close(5);
        Assert.Equal((Quality.Bad, BadCause.FromTheFuture), (entry.Quality, entry.Cause));
    }

    [Fact]
    public void A_channel_recovers_from_a_stamp_far_in_the_future_with_the_next_right_one()
    {
        FoldBench fold = new FoldBench().Add(3_600_000, 10);
        fold.Close(5);
        Assert.Equal(BadCause.FromTheFuture, fold.Close(10).Cause);
        Assert.True(fold.Add(11, 10).Close(15).IsUsable);
    }

    [Fact]
    public void A_channel_recovers_when_the_clock_goes_back()
    {
        FoldBench fold = new FoldBench().Add(1000, 10);
        fold.Close(1005);
        Assert.False(fold.Close(500).IsUsable);
        Assert.True(fold.Add(504, 10).Close(505).IsUsable);
    }

    [Fact]
    public void A_live_channel_that_repeats_itself_too_often_is_frozen()
    {
        FoldBench fold = new FoldBench(frozenAfter: 3).Add(1, 10).Add(2, 10);
        Assert.True(fold.Close(5).IsUsable);
        Assert.Equal(BadCause.Frozen, fold.Add(6, 10).Close(10).Cause);
        Assert.True(fold.Add(11, 10.1).Close(15).IsUsable);
    }

    [Fact]
    public void A_channel_without_a_noise_floor_may_repeat_itself()
    {
        FoldBench fold = new();
        for (int i = 0; i < 1000; i++)
            fold.Add(i, 1);
        Assert.True(fold.Close(1000).IsUsable);
    }

    [Fact]
    public void Channels_do_not_touch_each_other()
    {
        FoldBench fold = new FoldBench(channels: 3).Add(1, 10).Add(1, double.NaN, channel: 1).Add(1, 30, channel: 2);
        fold.Close(5);
        Assert.Equal((10, Quality.Bad, 30), (fold.Entry(0).Last, fold.Entry(1).Quality, fold.Entry(2).Last));
    }
}
