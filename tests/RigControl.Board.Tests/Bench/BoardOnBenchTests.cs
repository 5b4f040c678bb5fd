using RigControl.Board.Simulator.Bench;
using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;
using RigControl.Physics;

namespace RigControl.Board.Tests.Bench;

/// <summary>Firmware and bench together: the rotor turns because the board says so, and stops because it does.</summary>
public sealed class BoardOnBenchTests
{
    private const double RpmPerRadian = 60 / (2 * Math.PI);

    private static readonly BoardConfiguration Configuration = new() { TachometerLost = 1000, ShortestRevolution = 5000 };

    [Fact]
    public void The_rotor_spins_up_and_the_board_sees_the_speed_that_the_rotor_has()
    {
        using BoardOnBench rig = Rig();
        LineHost host = Driven(rig, pulse: 1400);
        host.Run(3000);
        Assert.Equal("spin", host.Status!.Mode);
        double speed = rig.Bench.Truth.Speed * RpmPerRadian;
        Assert.InRange(speed, 1000, 12000);
        Assert.InRange(60e6 / host.Status.Period, speed * 0.98, speed * 1.02);
        Assert.InRange(host.Status.Voltage.Mean / 10.0 * 30 / 1024, rig.Bench.Truth.PackVoltage - 0.1, rig.Bench.Truth.PackVoltage + 0.1);
    }

    [Fact]
    public void Nothing_turns_while_the_lid_is_open()
    {
        using BoardOnBench rig = Rig();
        rig.Change(bench => bench.Bench.Faults.LidForced = true);
        var host = new LineHost(rig, Configuration);
        host.Load();
        (host.Power, host.Pulse) = (true, 1400);
        host.Run(1500);
        Assert.Equal(0, rig.Bench.Truth.Speed);
        Assert.False(rig.Bench.Truth.ContactorClosed);
        Assert.True(host.Status!.Latched.HasFlag(Causes.Lid));
    }

    [Fact]
    public void A_lid_forced_open_takes_the_drive_and_the_power_from_the_rotor()
    {
        using BoardOnBench rig = Rig();
        LineHost host = Driven(rig, pulse: 1400);
        host.Run(1500);
        rig.Change(bench => bench.Bench.Faults.LidForced = true);
        host.Run(30);
        Assert.False(rig.Bench.Truth.ContactorClosed);
        Assert.Equal(0, rig.Bench.Truth.Duty);
        double speed = rig.Bench.Truth.Speed;
        host.Run(500);
        Assert.InRange(rig.Bench.Truth.Speed, 0, speed * 0.999);
    }

    [Fact]
    public void A_controller_that_runs_away_is_stopped_by_its_speed_though_it_ignores_its_pulse()
    {
        using BoardOnBench rig = Rig();
        LineHost host = Driven(rig, pulse: 1150);
        host.Run(1000);
        rig.Change(bench => bench.Bench.Faults.ControllerRunaway = true);
        host.RunTo("over-speed", () => host.Status!.Latched.HasFlag(Causes.Speed), 10_000);
        host.Run(50);
        Assert.False(rig.Bench.Truth.ContactorClosed);
        double limit = 60e6 / Configuration.ShortestRevolution;
        Assert.InRange(rig.Bench.Truth.Speed * RpmPerRadian, 0, limit * 1.05);
    }

    [Fact]
    public void A_lock_asked_to_open_stays_shut_while_power_is_on_and_opens_when_it_is_off()
    {
        using BoardOnBench rig = Rig();
        LineHost host = Driven(rig, pulse: 1000);
        host.Release = true;
        host.Run(60);
        Assert.True(rig.Bench.Truth.BoltHome);
        (host.Power, host.Release) = (false, true);
        host.Run(400);
        Assert.False(rig.Bench.Truth.BoltHome);
    }

    [Fact]
    public void The_same_seed_gives_the_same_run_and_another_seed_another()
    {
        string first = Transcript(7);
        Assert.Equal(first, Transcript(7));
        Assert.NotEqual(first, Transcript(8));
    }

    private static string Transcript(ulong seed)
    {
        using var rig = new BoardOnBench(Programs.Firmware, new BenchParameters(), seed);
        LineHost host = Driven(rig, pulse: 1300);
        host.Run(300);
        return $"{host.Status!.Line} {rig.Bench.Truth.Speed:R} {rig.Board.Cycle} {rig.Pins.LastPulse}";
    }

    private static BoardOnBench Rig() => new(Programs.Firmware, new BenchParameters(), seed: 1, remember: true);

    /// <summary>Loads, resets, closes the contactor, lets the controller arm at the stop pulse and then demands a pulse.</summary>
    private static LineHost Driven(BoardOnBench rig, int pulse)
    {
        var host = new LineHost(rig, Configuration);
        host.Load();
        host.Run(100);
        host.Reset();
        host.Power = true;
        host.RunTo("the contactor closes", () => host.Status!.Bits.HasFlag(StatusBits.Contactor));
        host.RunTo("the controller arms", () => rig.Bench.Truth.ControllerArmed, 3000);
        host.Pulse = pulse;
        host.Run(20);
        return host;
    }
}
