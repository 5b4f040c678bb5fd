using RigControl.Telemetry.Links;

namespace RigControl.Telemetry.Tests.Links;

public class BackoffTests
{
    [Theory]
    [InlineData(0.0, 0.5)]
    [InlineData(0.999, 1.0)]
    public void The_wait_doubles_up_to_a_cap_and_half_of_it_is_left_to_chance(double chance, double share)
    {
        Backoff backoff = new(TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(30), () => chance);
        double[] full = [1, 2, 4, 8, 16, 30, 30, 30];
        foreach (double expected in full)
            Assert.Equal(expected * share, backoff.Next().TotalSeconds, 0.05);
    }

    [Fact]
    public void A_link_that_held_begins_anew()
    {
        Backoff backoff = new(TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(30), () => 0);
        for (int i = 0; i < 100; i++)
            backoff.Next();
        backoff.Reset();
        Assert.Equal(0.5, backoff.Next().TotalSeconds);
    }

    [Fact]
    public void Failing_for_a_year_does_not_overflow()
    {
        Backoff backoff = new(TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(30), () => 0.5);
        for (int i = 0; i < 1_100_000; i++)
            Assert.InRange(backoff.Next().TotalSeconds, 0.5, 30);
    }
}
