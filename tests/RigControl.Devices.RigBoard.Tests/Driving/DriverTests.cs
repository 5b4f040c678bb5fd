using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Driving;

public class DriverTests
{
    [Fact]
    public void Until_somebody_arms_the_board_keeps_its_causes_and_hears_stop_without_power()
    {
        using Session session = new();
        session.Run(Session.Stop, 500);
        Assert.Equal(BoardCauses.Start | BoardCauses.Silent, session.Board.Latched);
        Assert.Equal((0, 1000, false), (session.Board.Resets, session.Board.Pulse, session.Board.Power));
    }

    [Fact]
    public void Arming_resets_the_board_and_closes_the_contactor()
    {
        using Session session = new();
        session.Run(Session.Stop);
        session.Run(Session.Armed);
        Assert.Equal((1, true, BoardCauses.None), (session.Board.Resets, session.Board.Power, session.Board.Latched));
        Assert.DoesNotContain("drive latched", session.Board.Refusals);
    }

    [Fact]
    public void The_pulse_the_power_the_marker_and_the_release_reach_the_board()
    {
        using Session session = new();
        session.SpinUp();
        session.Run(Session.Driven with { Switches = OutputSwitches.Power | OutputSwitches.Marker });
        Assert.True(session.Board.Marker);
        session.CoastDown();
        session.Run(Session.Unlocked);
        Assert.True(session.Board.Released);
    }

    [Fact]
    public void The_board_is_fed_at_least_every_20_and_at_most_every_4_milliseconds()
    {
        using Session session = new();
        session.SpinUp();
        int before = session.Board.Heard.Count;
        session.Run(Session.Driven, 1000);
        Assert.InRange(session.Board.Heard.Count - before, 50, 250);
        Assert.Empty(session.Board.Refusals);
    }

    [Fact]
    public void A_stop_does_not_wait_for_its_turn()
    {
        using Session session = new();
        session.SpinUp();
        session.Device.Apply(session.Time.Now, Session.Driven with { Pulse = 1501 });
        session.Device.Apply(session.Time.Now, Session.Stop);
        Assert.Contains(" 1000 0 0 0 0 0 #", session.Board.Heard[^1], StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-097")]
    [Fact]
    public void Pulses_cease_under_power_and_come_back_at_stop()
    {
        using Session session = new();
        session.SpinUp();
        session.Run(Session.Driven with { Pulse = 0 }, 300);
        Assert.Equal((0, true, BoardCauses.None), (session.Board.Pulse, session.Board.Power, session.Board.Latched));
        session.Run(Session.Stop);
        Assert.Equal((1000, false), (session.Board.Pulse, session.Board.Power));
        Assert.Empty(session.Board.Refusals);
    }

    [Fact]
    public void A_board_that_trips_in_a_run_is_not_reset_while_the_host_still_demands_power()
    {
        using Session session = new();
        session.SpinUp();
        session.Board.Latch(BoardCauses.Current);
        session.Run(Session.Driven, 200);
        Assert.Equal((1, BoardCauses.Current, 1000, false), (session.Board.Resets, session.Board.Latched, session.Board.Pulse, session.Board.Power));
    }

    [Fact]
    public void After_a_trip_that_the_host_shared_the_next_arming_resets_the_board()
    {
        using Session session = new();
        session.SpinUp();
        session.Board.Latch(BoardCauses.Current);
        session.Run(Session.Driven, 50);
        session.Run(Session.Stop, 1000);
        session.Run(Session.Armed);
        Assert.Equal((2, true), (session.Board.Resets, session.Board.Power));
    }

    [Fact]
    public void A_repeat_on_an_untouched_board_needs_no_reset()
    {
        using Session session = new();
        session.SpinUp();
        session.CoastDown();
        session.SpinUp();
        Assert.Equal(1, session.Board.Resets);
    }

    [Trait("Requirement", "SAF-035")]
    [Fact]
    public void A_board_that_stopped_in_the_pause_is_not_reset_by_a_repeat()
    {
        using Session session = new();
        session.SpinUp();
        session.CoastDown();
        session.Board.Latch(BoardCauses.Silent);
        session.Run(Session.Stop);
        string failure = session.RunToFailure(Session.Powered);
        Assert.Contains("stopped by itself since power was last off (the host fell silent)", failure, StringComparison.Ordinal);
        Assert.Equal((1, false), (session.Board.Resets, session.Board.Power));
    }

    [Fact]
    public void A_board_that_stopped_during_the_coast_down_is_reset_when_an_operator_arms_again()
    {
        using Session session = new();
        session.SpinUp();
        session.Run(Session.Powered);
        session.Board.Latch(BoardCauses.Lid);
        session.Run(Session.Stop);
        session.Run(Session.Armed);
        Assert.Equal((2, true), (session.Board.Resets, session.Board.Power));
    }

    [Fact]
    public void A_cause_that_clears_shortly_after_arming_is_waited_for()
    {
        using Session session = new();
        session.Board.Standing = BoardCauses.Lid;
        session.Run(Session.Stop);
        session.Run(Session.Armed, 300);
        Assert.Equal((0, false), (session.Board.Resets, session.Board.Power));
        session.Board.Standing = BoardCauses.None;
        session.Run(Session.Armed, 200);
        Assert.Equal((1, true), (session.Board.Resets, session.Board.Power));
    }

    [Fact]
    public void A_cause_that_does_not_clear_ends_the_arming_with_its_name()
    {
        using Session session = new();
        session.Board.Standing = BoardCauses.LidPair;
        session.Run(Session.Stop);
        Assert.Contains("does not let itself be reset: it started or was configured afresh, the lid contacts contradict each other", session.RunToFailure(Session.Armed), StringComparison.Ordinal);
        Assert.Equal((0, false), (session.Board.Resets, session.Board.Power));
    }

    [Fact]
    public void An_arming_taken_back_ends_the_asking_for_a_reset()
    {
        using Session session = new();
        session.Board.Standing = BoardCauses.Lid;
        session.Run(Session.Stop);
        session.Run(Session.Armed, 200);
        session.Run(Session.Stop);
        session.Board.Standing = BoardCauses.None;
        session.Run(Session.Stop, 2000);
        Assert.Equal(0, session.Board.Resets);
    }

    [Fact]
    public void A_reset_whose_receipt_is_lost_is_asked_for_again_without_harm()
    {
        using Session session = new();
        int lost = 0;
        session.Line.Mangle = line => line.AsSpan().StartsWith("ok "u8) && lost++ < 2 ? [] : line;
        session.Run(Session.Stop);
        session.Run(Session.Armed, 300);
        Assert.True(session.Board.Power);
        Assert.Equal(BoardCauses.None, session.Board.Latched);
    }

    [Fact]
    public void A_line_from_before_the_reset_that_comes_after_its_receipt_takes_nothing_back()
    {
        using Session session = new();
        byte[] held = [];
        session.Line.Mangle = line =>
        {
            bool status = line.AsSpan().StartsWith("now"u8);
            byte[] sent = status ? held : [.. line, .. held];
            held = status ? line : [];
            return sent;
        };
        session.Run(Session.Stop);
        session.Run(Session.Armed);
        string[] drives = [.. session.Board.Heard.Where(l => l.StartsWith("drive", StringComparison.Ordinal)).SkipWhile(l => l.Contains(" 1000 0 ", StringComparison.Ordinal))];
        Assert.True(drives.Length > 10);
        Assert.All(drives, d => Assert.Contains(" 1000 1 ", d, StringComparison.Ordinal));
    }

    [Fact]
    public void A_host_that_hears_nothing_says_nothing()
    {
        using Session session = new();
        session.SpinUp();
        session.Line.Mangle = _ => [];
        session.Run(Session.Driven, 60);
        int heard = session.Board.Heard.Count;
        session.Run(Session.Driven, 100);
        Assert.Equal(heard, session.Board.Heard.Count);
        Assert.Equal((1000, false, BoardCauses.Silent), (session.Board.Pulse, session.Board.Power, session.Board.Latched));
    }
}
