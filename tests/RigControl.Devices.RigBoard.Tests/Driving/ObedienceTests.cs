using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;

namespace RigControl.Devices.RigBoard.Tests.Driving;

public class ObedienceTests
{
    [Fact]
    public void A_host_that_drives_on_after_the_board_has_stopped_is_told_so()
    {
        using Session session = new();
        session.SpinUp();
        session.Board.Latch(BoardCauses.Current);
        string failure = session.RunToFailure(Session.Driven);
        Assert.Contains("has stopped by itself (over-current), but the run went on: give the rig file an interlock that sees this", failure, StringComparison.Ordinal);
    }

    [Fact]
    public void A_host_that_has_stopped_its_output_may_keep_power_for_the_stopping_time_and_no_longer()
    {
        using Session session = new();
        session.SpinUp();
        session.Board.Latch(BoardCauses.Current);
        session.Run(Session.Armed, 700);
        Assert.Contains("over-current", session.RunToFailure(Session.Armed), StringComparison.Ordinal);
    }

    [Fact]
    public void A_contactor_that_does_not_close_stops_the_board_and_the_arming()
    {
        using Session session = new();
        session.Board.ContactorStuck = false;
        session.Run(Session.Stop);
        Assert.Contains("the contactor's feedback does not follow", session.RunToFailure(Session.Armed), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1000)]
    [InlineData(2000)]
    public void A_pin_that_does_not_follow_the_demand_is_told(int stuck)
    {
        using Session session = new();
        session.SpinUp();
        session.Board.PulseStuck = stuck;
        Assert.Contains($"a pulse of 1500 us, but {stuck} us is read back", session.RunToFailure(Session.Driven), StringComparison.Ordinal);
    }

    [Fact]
    public void A_read_back_within_its_error_is_no_fault()
    {
        using Session session = new();
        session.SpinUp();
        session.Board.PulseStuck = 1512;
        session.Run(Session.Driven, 2000);
        Assert.Equal(1500, session.Board.Pulse);
    }

    [Fact]
    public void A_ramp_whose_read_back_lags_behind_is_no_fault()
    {
        using Session session = new();
        session.SpinUp();
        for (int pulse = 1500; pulse < 2000; pulse++)
        {
            session.Board.PulseStuck = pulse - 40;
            session.Run(Session.Driven with { Pulse = pulse }, 5);
        }

        session.Board.PulseStuck = null;
        session.Run(Session.Driven with { Pulse = 2000 });
        Assert.Equal(2000, session.Board.Pulse);
    }
}
