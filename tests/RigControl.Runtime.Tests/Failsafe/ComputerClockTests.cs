using RigControl.Runtime.Failsafe;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>A wall clock that was set shows by the time for which the computer has run, so that nobody lengthens a proof by it.</summary>
public class ComputerClockTests
{
    private static readonly DateTimeOffset Morning = new(2031, 5, 4, 9, 0, 0, TimeSpan.Zero);
    private static readonly ComputerClock Then = new(Morning, "one", TimeSpan.FromHours(5));

    [Fact]
    public void Two_clocks_that_go_on_alike_show_nothing() => Assert.Null(After(hours: 3, wall: 3).JumpedSince(Then));

    [Trait("Requirement", "SAF-092")]
    [Theory]
    [InlineData(-2, "set back by 2 h or so")]
    [InlineData(-0.5, "set back by 30 min or so")]
    [InlineData(2, "set forward by 2 h or so")]
    [InlineData(-0.02, "set back by 1 min or so")]
    public void A_clock_that_was_set_is_found_by_the_time_for_which_the_computer_ran(double hours, string words) =>
        Assert.Equal($"the clock of this computer was {words} since the failsafe was verified", After(hours: 3, wall: 3 + hours).JumpedSince(Then));

    [Theory]
    [InlineData(59)]
    [InlineData(-59)]
    public void A_clock_that_is_kept_in_step_with_others_is_believed_to_a_minute(int seconds) =>
        Assert.Null((After(hours: 3, wall: 3) with { Wall = Morning.AddHours(3).AddSeconds(seconds) }).JumpedSince(Then));

    [Trait("Requirement", "SAF-092")]
    [Fact]
    public void After_another_start_of_the_computer_it_cannot_have_started_before_the_proof_was_made()
    {
        Assert.Null(Restarted(at: 1, wall: 2).JumpedSince(Then));
        Assert.StartsWith("the clock of this computer was set back by 60 min", Restarted(at: -1, wall: 0.5).JumpedSince(Then)!, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_the_system_tells_nothing_or_nobody_kept_it_nothing_is_shown()
    {
        ComputerClock later = After(hours: 3, wall: 1);
        Assert.Null(later.JumpedSince(null));
        Assert.Null(later.JumpedSince(Then with { Start = "" }));
        Assert.Null((later with { Start = "" }).JumpedSince(Then));
    }

    [Trait("Requirement", "SAF-092")]
    [Fact]
    public void A_clock_that_shows_less_than_what_is_written_down_went_back()
    {
        Assert.Equal("the clock of this computer went back, for the logbook holds what happened at 2031-05-04 11:00 UTC", After(1, 1).IsBehind(Morning.AddHours(2)));
        Assert.Null(After(1, 1).IsBehind(Morning.AddHours(1).AddSeconds(59)));
        Assert.Null(After(1, 1).IsBehind(null));
    }

    [Fact]
    public void This_computer_s_clocks_go_on_alike()
    {
        ComputerClock earlier = ComputerClock.Read(TimeProvider.System);
        ComputerClock now = ComputerClock.Read(TimeProvider.System);
        Assert.Null(now.JumpedSince(earlier));
        Assert.Equal(OperatingSystem.IsLinux(), earlier.Start.Length > 0);
        Assert.Equal(earlier.Start, now.Start);
        Assert.True(now.Up >= earlier.Up);
    }

    private static ComputerClock After(double hours, double wall) => new(Morning.AddHours(wall), "one", Then.Up + TimeSpan.FromHours(hours));

    // Another start, at a time of the wall clock as it is now set.
    private static ComputerClock Restarted(double at, double wall) => new(Morning.AddHours(wall), "two", TimeSpan.FromHours(wall - at));
}
