using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Tests.Driving;

public class GateTests
{
    private static readonly OutputImage Open = Session.Powered with { Switches = OutputSwitches.Power | OutputSwitches.Gate };

    private static Session Armed(int receiver)
    {
        Session session = new(before: (board, _) => board.Receiver = receiver);
        session.Run(Session.Stop);
        session.Run(Session.Armed);
        session.Run(Session.Warning);
        session.Board.Tachometer = "100 12000 12000 1000";
        return session;
    }

    [Fact]
    public void Through_an_open_gate_goes_the_receiver_s_pulse_and_it_can_be_read()
    {
        using Session session = Armed(1005);
        session.Run(Open);
        Assert.Equal(1005, session.Board.Pulse);
        session.Board.Receiver = 1700;
        session.Run(Open);
        Assert.Equal(1700, session.Board.Pulse);
        Assert.Equal((1700, 1700), (session.Samples.Last(ChannelNames.ReceiverPulse).Value, session.Samples.Last(ChannelNames.OutputPulse).Value));
        Assert.Equal(70, session.Samples.Last(ChannelNames.OutputThrottle).Value, 1e-9);
        Assert.Empty(session.Board.Refusals);
    }

    [Trait("Requirement", "SAF-090")]
    [Fact]
    public void With_the_power_off_on_purpose_the_gate_opens_without_it_and_with_the_power_lost_it_does_not()
    {
        using Session session = new(before: (board, _) => board.Receiver = 1005);
        session.Run(Session.Stop);
        session.Run(Session.Armed with { Switches = OutputSwitches.OperatorArms });
        session.Run(default(OutputImage) with { Pulse = 1000, Switches = OutputSwitches.Gate });
        Assert.Equal((1005, false, true), (session.Board.Pulse, session.Board.Power, session.Board.GateDemanded));
        Assert.Empty(session.Board.Refusals);
        // A pulse that the board would refuse takes power and gate with it.
        session.Run(Open with { Pulse = double.NaN });
        Assert.Equal((1000, false, false), (session.Board.Pulse, session.Board.Power, session.Board.GateDemanded));
    }

    [Theory]
    [InlineData(1030)]
    [InlineData(970)]
    [InlineData(0)]
    public void The_gate_waits_for_a_stick_at_stop_and_the_board_stays_fed(int receiver)
    {
        using Session session = Armed(receiver);
        session.Run(Open, 500);
        Assert.Equal((1000, true, false), (session.Board.Pulse, session.Board.Power, session.Board.GateDemanded));
        Assert.Empty(session.Board.Refusals);
        session.Board.Receiver = 1000;
        session.Run(Open);
        Assert.True(session.Board.GateDemanded);
    }

    [Fact]
    public void A_gate_that_closes_does_not_wait_for_its_turn()
    {
        using Session session = Armed(1000);
        session.Run(Open);
        session.Device.Apply(session.Time.Now, Open);
        session.Device.Apply(session.Time.Now, Session.Powered);
        Assert.EndsWith(" 0", session.Board.Heard[^1].Split(" #")[0], StringComparison.Ordinal);
        Assert.False(session.Board.GateDemanded);
    }

    [Fact]
    public void A_radio_lost_while_it_drives_is_named_when_the_run_goes_on()
    {
        using Session session = Armed(1000);
        session.Run(Open);
        session.Board.Receiver = 0;
        Assert.Contains("the receiver gave no pulse while it drove", session.RunToFailure(Open), StringComparison.Ordinal);
        Assert.Equal((1000, false), (session.Board.Pulse, session.Board.Power));
    }

    [Fact]
    public void The_receiver_s_pulse_that_jitters_is_no_wrong_pulse()
    {
        using Session session = Armed(1000);
        session.Run(Open);
        for (int i = 0; i < 100; i++)
        {
            session.Board.Receiver = 1600 + i % 3;
            session.Run(Open, 20);
        }

        Assert.Equal(BoardCauses.None, session.Board.Latched);
    }
}
