using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;

namespace RigControl.Board.Tests.Reactions;

/// <summary>A cause stays latched until it is gone, stop is demanded and somebody resets.</summary>
public sealed class LatchTests
{
    public static TheoryData<string, string> Causes_by_name => new()
    {
        { "lid opens", "Lid" }, { "stop pressed", "Stop" }, { "host falls silent", "Silent" }, { "over-speed", "Speed" },
        { "over-current", "Current" }, { "tachometer lost", "Tacho" }, { "contactor opens by itself", "Contactor" },
        { "converter stands still", "Sampler" }, { "receiver falls silent, gate open", "Receiver" },
    };

    [Trait("Requirement", "SAF-035")]
    [Theory]
    [MemberData(nameof(Causes_by_name))]
    public void A_cause_that_has_gone_stays_latched_and_named_until_it_is_reset(string provocation, string cause)
    {
        using Trial trial = Tripped(provocation);
        LineHost host = trial.Host;
        trial.Stand.Heal();
        trial.Stand.Turn(0);
        (host.Pulse, host.Power, host.Gate, host.Speaking) = (1000, false, false, true);
        trial.Stand.Pins.Clear();
        host.Run(200);
        Assert.True(host.Status!.Latched.HasFlag(Enum.Parse<Causes>(cause)));
        Assert.Equal("trip", host.Status.Mode);
        Assert.Empty(trial.Stand.Pins.PowerRises);
        Assert.All(trial.Stand.Pins.Pulses, pulse => Assert.Equal(1000, pulse.Microseconds));
        host.Reset();
        Assert.Equal(Causes.None, host.Status.Latched);
    }

    [Theory]
    [InlineData("lid opens")]
    [InlineData("stop pressed")]
    [InlineData("over-current")]
    public void A_reset_is_refused_while_the_cause_stands(string provocation)
    {
        using Trial trial = Tripped(provocation);
        (trial.Host.Pulse, trial.Host.Power) = (1000, false);
        trial.Host.Run(100);
        AssertRefused(trial, "standing");
    }

    [Trait("Requirement", "SAF-035")]
    [Fact]
    public void A_reset_is_refused_while_the_host_still_demands_drive()
    {
        using Trial trial = Tripped("lid opens");
        trial.Stand.Heal();
        trial.Host.Run(100);
        AssertRefused(trial, "demand", "standing");
    }

    [Trait("Requirement", "SAF-032")]
    [Fact]
    public void A_host_that_talks_but_does_not_listen_counts_as_silent()
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        trial.Host.Listening = false;
        trial.Stand.Pins.Clear();
        trial.Host.Run(200);
        Assert.Equal(1000, trial.Stand.Pins.LastPulse.Microseconds);
        Assert.False(trial.Stand.Pins.Pump.Holding);
        trial.Host.Listening = true;
        trial.Host.Run(20);
        Assert.True(trial.Host.Status!.Latched.HasFlag(Causes.Silent));
    }

    [Theory]
    [InlineData(BoardPin.LidA, true)]
    [InlineData(BoardPin.LidB, false)]
    public void One_lid_contact_alone_is_enough(BoardPin contact, bool openLevel)
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        trial.Stand.Board.SetInput(contact, openLevel);
        trial.Host.Run(10);
        Assert.Equal(1000, trial.Stand.Pins.LastPulse.Microseconds);
        trial.Host.Run(100);
        Assert.True(trial.Host.Status!.Latched.HasFlag(Causes.Lid | Causes.LidPair));
    }

    [Fact]
    public void With_ceasing_configured_a_trip_ends_the_pulses_and_cuts_none()
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400) with { Ceases = true });
        trial.Spin();
        trial.Stand.Pins.Clear();
        Measurement measured = trial.Measure(Provocation.LidOpens, 0.2, hostAlive: true);
        Assert.InRange(measured.Stop, 0, 4.5);
        Assert.All(trial.Stand.Pins.Pulses, pulse => Assert.Equal(Trial.SpinPulse, pulse.Microseconds));
    }

    [Trait("Requirement", "SAF-035")]
    [Fact]
    public void The_limits_cannot_be_changed_while_spinning()
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        ushort digest = trial.Host.Status!.Digest;
        trial.Host.Heard.Clear();
        trial.Host.Say("load", ["1", .. (trial.Host.Configuration with { ShortestRevolution = 500 }).Text.Split(' ')]);
        trial.Host.Run(30);
        Assert.Contains(trial.Host.Heard, line => line is { Word: "no", Fields: [_, "load", "busy"] });
        Assert.Equal(digest, trial.Host.Status.Digest);
        Assert.Equal("spin", trial.Host.Status.Mode);
    }

    private static Trial Tripped(string provocation)
    {
        var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        Provocation provoked = ReactionTable.All.Single(entry => entry.Provocation.Name == provocation).Provocation;
        provoked.Output.Spin(trial);
        trial.Measure(provoked, 0.4, hostAlive: true);
        return trial;
    }

    private static void AssertRefused(Trial trial, params string[] reasons)
    {
        LineHost host = trial.Host;
        host.Heard.Clear();
        host.Say("reset", host.Echo);
        host.Run(30);
        BoardLine refusal = Assert.Single(host.Heard, line => line is { Word: "no", Fields: [_, "reset", _] });
        Assert.Contains(refusal.Fields[2], reasons);
        Assert.NotEqual(Causes.None, host.Status!.Latched);
    }
}
