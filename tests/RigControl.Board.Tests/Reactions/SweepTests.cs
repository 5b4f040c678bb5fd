using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;

namespace RigControl.Board.Tests.Reactions;

/// <summary>
/// Each reaction with its event all over the servo frame, from the event to the falling edge of the first complete stop pulse.
/// <see cref="Trial.Measure"/> itself fails on a pulse that nobody demanded, and on a drive that comes back.
/// </summary>
public abstract class SweepTests(int rate, ITestOutputHelper output)
{
    /// <summary>Time from the event within which the coil must be let go once detected, ms: a check and the pump.</summary>
    private const double CoilAfterDetection = 20;

    /// <summary>What <c>docs/board.md</c> allows a contact besides a frame and the stop pulse, ms.</summary>
    private const double Contact = 0.8;

    protected void SweepContact(Provocation provocation, int phases, bool hostAlive)
    {
        Measurement worst = Sweep(provocation, phases, hostAlive);
        Assert.InRange(worst.Stop, 0.001, 1000.0 / rate + ReactionTable.Configuration(rate).StopPulse / 1000.0 + Contact);
    }

    protected Measurement Sweep(Provocation provocation, int phases, bool hostAlive = true)
    {
        BoardConfiguration configuration = provocation.Output.On(ReactionTable.Configuration(rate));
        Measurement worst = ReactionTable.Worst(Programs.Firmware, provocation, rate, hostAlive, phases);
        output.WriteLine($"{provocation.Name} at {rate} Hz, host {(hostAlive ? "alive" : "dead")}, worst of {phases}: {worst}");
        Assert.InRange(worst.Stop, 0.001, provocation.Allowed(configuration));
        Assert.InRange(worst.Coil, 0.001, provocation.Ceases ? provocation.Allowed(configuration) : provocation.Detection(configuration) + CoilAfterDetection);
        return worst;
    }
}

/// <summary>At 400 pulses a second.</summary>
public sealed class FastPulseTests(ITestOutputHelper output) : SweepTests(400, output)
{
    [Trait("Requirement", "SAF-031")]
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_lid_that_opens_stops_the_output_within_4_5_ms(bool hostAlive) => SweepContact(Provocation.LidOpens, 100, hostAlive);

    [Trait("Requirement", "SAF-031")]
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_pressed_stop_stops_the_output_within_4_5_ms(bool hostAlive) => SweepContact(Provocation.StopPressed, 100, hostAlive);

    [Trait("Requirement", "SAF-031")]
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void One_contact_of_the_lid_that_opens_alone_stops_the_output_as_soon(bool hostAlive)
    {
        Sweep(Provocation.LidContactA, 8, hostAlive);
        Sweep(Provocation.LidContactB, 8, hostAlive);
    }

    [Trait("Requirement", "SAF-032")]
    [Fact]
    public void A_silent_host_stops_the_output_within_105_ms() => Sweep(Provocation.HostSilent, 8);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void Over_speed_stops_the_output_a_frame_after_the_revolution_that_showed_it() => Sweep(Provocation.OverSpeed, 8);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void Over_current_stops_the_output_a_frame_after_the_readings_that_show_it() => Sweep(Provocation.OverCurrent, 8);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void A_lost_tachometer_stops_the_output_a_frame_after_its_time() => Sweep(Provocation.TachometerLost, 6);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void A_contactor_that_opens_by_itself_stops_the_output_a_frame_after_its_time() => Sweep(Provocation.ContactorOpens, 6);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void A_converter_that_stands_still_stops_the_output_a_frame_after_its_time() => Sweep(Provocation.ConverterStandsStill, 8);

    [Trait("Requirement", "SAF-066")]
    [Fact]
    public void A_receiver_that_falls_silent_stops_the_output_a_frame_after_its_time() => Sweep(Provocation.ReceiverSilent, 6);

    [Trait("Requirement", "SAF-066")]
    [Fact]
    public void A_pulse_that_no_receiver_gives_stops_the_output_with_the_next_frame() => Sweep(Provocation.ReceiverAstray, 6);

    [Trait("Requirement", "SAF-065")]
    [Fact]
    public void The_second_output_stops_as_soon_as_the_first()
    {
        Sweep(Provocation.LidOpens.OnSecond(), 8);
        Sweep(Provocation.HostSilent.OnSecond(), 6);
    }

    [Trait("Requirement", "SAF-034")]
    [Fact]
    public void The_second_output_is_let_go_of_as_soon_as_the_first()
    {
        Sweep(Provocation.Hang.OnSecond(), 6);
        Sweep(Provocation.DeadHang.OnSecond(), 6);
    }

    [Trait("Requirement", "SAF-034")]
    [Fact]
    public void A_hanging_main_loop_lets_go_of_pulses_and_power_within_80_ms() => Sweep(Provocation.Hang, 6);

    [Trait("Requirement", "SAF-034")]
    [Fact]
    public void A_program_dead_with_interrupts_off_lets_go_of_pulses_and_power_within_80_ms() => Sweep(Provocation.DeadHang, 6);
}

/// <summary>At 50 pulses a second.</summary>
public sealed class SlowPulseTests(ITestOutputHelper output) : SweepTests(50, output)
{
    [Trait("Requirement", "SAF-031")]
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_lid_that_opens_stops_the_output_within_22_ms(bool hostAlive) => SweepContact(Provocation.LidOpens, 100, hostAlive);

    [Trait("Requirement", "SAF-031")]
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_pressed_stop_stops_the_output_within_22_ms(bool hostAlive) => SweepContact(Provocation.StopPressed, 100, hostAlive);

    [Trait("Requirement", "SAF-031")]
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void One_contact_of_the_lid_that_opens_alone_stops_the_output_as_soon(bool hostAlive)
    {
        Sweep(Provocation.LidContactA, 8, hostAlive);
        Sweep(Provocation.LidContactB, 8, hostAlive);
    }

    [Trait("Requirement", "SAF-032")]
    [Fact]
    public void A_silent_host_stops_the_output_within_122_ms() => Sweep(Provocation.HostSilent, 8);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void Over_speed_stops_the_output_a_frame_after_the_revolution_that_showed_it() => Sweep(Provocation.OverSpeed, 8);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void Over_current_stops_the_output_a_frame_after_the_readings_that_show_it() => Sweep(Provocation.OverCurrent, 8);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void A_lost_tachometer_stops_the_output_a_frame_after_its_time() => Sweep(Provocation.TachometerLost, 6);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void A_contactor_that_opens_by_itself_stops_the_output_a_frame_after_its_time() => Sweep(Provocation.ContactorOpens, 6);

    [Trait("Requirement", "SAF-033")]
    [Fact]
    public void A_converter_that_stands_still_stops_the_output_a_frame_after_its_time() => Sweep(Provocation.ConverterStandsStill, 8);

    [Trait("Requirement", "SAF-066")]
    [Fact]
    public void A_receiver_that_falls_silent_stops_the_output_a_frame_after_its_time() => Sweep(Provocation.ReceiverSilent, 6);

    [Trait("Requirement", "SAF-066")]
    [Fact]
    public void A_pulse_that_no_receiver_gives_stops_the_output_with_the_next_frame() => Sweep(Provocation.ReceiverAstray, 6);

    [Trait("Requirement", "SAF-065")]
    [Fact]
    public void The_second_output_stops_as_soon_as_the_first()
    {
        Sweep(Provocation.LidOpens.OnSecond(), 8);
        Sweep(Provocation.HostSilent.OnSecond(), 6);
    }

    [Trait("Requirement", "SAF-034")]
    [Fact]
    public void The_second_output_is_let_go_of_as_soon_as_the_first()
    {
        Sweep(Provocation.Hang.OnSecond(), 6);
        Sweep(Provocation.DeadHang.OnSecond(), 6);
    }

    [Trait("Requirement", "SAF-034")]
    [Fact]
    public void A_hanging_main_loop_lets_go_of_pulses_and_power_within_80_ms() => Sweep(Provocation.Hang, 6);

    [Trait("Requirement", "SAF-034")]
    [Fact]
    public void A_program_dead_with_interrupts_off_lets_go_of_pulses_and_power_within_80_ms() => Sweep(Provocation.DeadHang, 6);
}
