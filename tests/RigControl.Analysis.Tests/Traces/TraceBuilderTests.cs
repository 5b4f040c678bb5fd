using RigControl.Analysis.Traces;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Tests.Traces;

public class TraceBuilderTests
{
    [Fact]
    public void What_nobody_vouches_for_is_left_out()
    {
        TraceBuilder builder = Builder();
        builder.Add(Sample(1, 100));
        builder.Add(Sample(2, 999, Quality.Bad));
        builder.Add(Sample(3, 300, Quality.Uncertain));
        Assert.Equal([100, 300], builder.Build().Find("rotor.speed")!.Values);
    }

    [Fact]
    public void A_sample_that_goes_back_in_time_is_left_out()
    {
        TraceBuilder builder = Builder();
        builder.Add(Sample(2, 100));
        builder.Add(Sample(2, 200));
        builder.Add(Sample(1, 300));
        Assert.Equal([100], builder.Build().Find("rotor.speed")!.Values);
    }

    [Fact]
    public void A_channel_without_samples_is_not_found() => Assert.Null(Builder().Build().Find("rotor.speed"));

    [Fact]
    public void The_states_of_a_run_give_its_repeats()
    {
        TraceBuilder builder = Builder();
        foreach ((double at, string state) in new[] { (1.0, "Arming"), (2, "SpinUp"), (3, "Hold"), (4, "CoastDown"), (5, "Idle"), (6, "SpinUp"), (7, "SafeStop") })
            builder.Enter(at, state);
        builder.Add(Sample(9, 0));
        Assert.Equal([new Segment(1, 2, 3, 4, 5), new Segment(2, 6, double.NaN, 7, 9)], builder.Build().Segments);
    }

    [Fact]
    public void A_second_level_of_one_repeat_leaves_its_first_hold_as_it_was()
    {
        TraceBuilder builder = Builder();
        foreach ((double at, string state) in new[] { (2.0, "SpinUp"), (3, "Hold"), (4, "SpinUp"), (5, "Hold"), (6, "CoastDown"), (7, "Idle") })
            builder.Enter(at, state);
        Assert.Equal(new Segment(1, 2, 3, 6, 7), Assert.Single(builder.Build().Segments));
    }

    [Fact]
    public void A_measured_pulse_that_flickers_at_the_foot_of_the_ramp_is_part_of_the_one_repeat_that_the_run_told()
    {
        TraceBuilder builder = Builder();
        foreach ((double at, string state) in new[] { (2.0, "SpinUp"), (3, "Hold"), (4, "CoastDown"), (5, "Idle") })
            builder.Enter(at, state);
        for (int i = 0; i < 1200; i++)
            builder.Add(new Sample(1, Quality.Good, TimeSpan.FromSeconds(0.005 * i), (0.005 * i) switch { < 2.01 => 0, < 2.04 => 0.1, < 2.06 => 0, < 3 => 40 * (0.005 * i - 2), < 4 => 40, _ => 0 }));
        Segment whole = Assert.Single(builder.Build().Segments);
        Assert.Equal(2.01, whole.RiseAt, 0.0051);
        Assert.Equal(4, whole.ReleaseAt, 0.0051);
        Assert.Equal(5.995, whole.EndAt, 0.0051);
        Assert.InRange(whole.HoldAt, 2.9, 3.1);
    }

    private static TraceBuilder Builder() => new([new Channel(0, "rotor.speed", 0, new ChannelDeclaration
    {
        Name = "rotor.speed", Unit = "rpm", Minimum = 0, Maximum = 20_000, Period = TimeSpan.FromMilliseconds(5), MaximumAge = TimeSpan.FromMilliseconds(50),
    }), new Channel(1, "output.throttle", 0, new ChannelDeclaration
    {
        Name = "output.throttle", Unit = "%", Minimum = 0, Maximum = 100, Period = TimeSpan.FromMilliseconds(5), MaximumAge = TimeSpan.FromMilliseconds(50),
    })]);

    private static Sample Sample(double at, double value, Quality quality = Quality.Good) => new(0, quality, TimeSpan.FromSeconds(at), value);
}
