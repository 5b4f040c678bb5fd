using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class TachometerLostTests
{
    private const string Speed = ChannelNames.RotorSpeed;
    private const string Throttle = ChannelNames.OutputThrottle;

    private readonly Bench _bench = new(new TachometerLostPlugin(), new TachometerLostOptions { Below = 300, From = 5, Within = 0.5 });

    [Fact]
    public void A_rotor_that_gets_up_to_speed_in_time_may_go_on()
    {
        _bench.Set(Throttle, 30);
        for (int scan = 0; scan < 400; scan++)
            _bench.ScanAfter(0.005, Speed, Math.Min(5000, 10 * scan)).Proceeds();
        Assert.Equal("rotor.speed is what throttle and time allow", _bench.Sentence());
    }

    [Fact]
    public void A_rotor_that_nothing_drives_may_stand_for_as_long_as_it_likes()
    {
        Demand last = default;
        for (int scan = 0; scan < 4000; scan++)
            last = _bench.ScanAfter(0.005, Speed, 0).Proceeds();
        Assert.Equal(1, last.Margin);
    }

    [Trait("Requirement", "SAF-088")]
    [Fact]
    public void A_driven_rotor_that_never_gives_a_pulse_stops_by_its_power()
    {
        _bench.Set(Throttle, 30);
        _bench.ScanAfter(0.005, Speed, 0).Proceeds();
        _bench.ScanAfter(0.499, Speed, 0).Proceeds();
        _bench.ScanAfter(0.001, Speed, 0).Objects(DemandAction.CutPower);
        Assert.Equal("rotor 0 rpm after 0.5 s of drive, 300 rpm at least is due: look whether the tachometer lost its mark, the rotor is held or nothing drives it",
            _bench.Sentence());
    }

    [Trait("Requirement", "SAF-088")]
    [Fact]
    public void A_tachometer_that_falls_silent_while_the_rotor_is_driven_stops()
    {
        _bench.Set(Throttle, 60);
        for (int scan = 0; scan < 400; scan++)
            _bench.ScanAfter(0.005, Speed, 5000).Proceeds();
        // Between pulses the speed falls with the time since the last one.
        double silent = 0;
        Demand demand;
        do
        {
            silent += 0.005;
            demand = _bench.ScanAfter(0.005, Speed, Math.Min(5000, 60 / silent));
        }
        while (demand.Action == DemandAction.Proceed && silent < 2);

        demand.Objects(DemandAction.CutPower);
        Assert.Equal(0.2 + 0.5, silent, 0.011);
    }

    // Through the receiver's gate nobody but the pulse tells how much drives; on a two-way controller the throttle is negative in reverse.
    [Trait("Requirement", "SAF-088")]
    [Theory]
    [InlineData(5)]
    [InlineData(-5)]
    [InlineData(100)]
    public void What_counts_is_the_throttle_that_goes_out(double percent)
    {
        _bench.Throttle = 0;
        _bench.Set(Throttle, percent);
        _bench.ScanAfter(0, Speed, 0).Proceeds();
        _bench.ScanAfter(0.5, Speed, 0).Objects();
    }

    [Fact]
    public void Less_throttle_than_counts_as_driven_may_last()
    {
        _bench.Set(Throttle, 4.9);
        _bench.ScanAfter(0, Speed, 0).Proceeds();
        _bench.ScanAfter(60, Speed, 0).Proceeds();
    }

    [Trait("Requirement", "SAF-088")]
    [Fact]
    public void A_stop_in_between_begins_the_time_anew_and_a_pulse_too_few_does_not()
    {
        _bench.Set(Throttle, 30).ScanAfter(0, Speed, 0).Proceeds();
        _bench.Set(Throttle, 0).ScanAfter(0.4, Speed, 0).Proceeds();
        _bench.Set(Throttle, 30).ScanAfter(0.4, Speed, 299).Proceeds();
        _bench.ScanAfter(0.3, Speed, -299).Proceeds();
        _bench.ScanAfter(0.2, Speed, 250).Objects();
    }

    [Trait("Requirement", "SAF-088")]
    [Fact]
    public void A_rotor_that_turns_backwards_is_seen_to_turn()
    {
        _bench.Set(Throttle, -30).ScanAfter(0, Speed, -300).Proceeds();
        _bench.ScanAfter(60, Speed, -300).Proceeds();
    }

    [Fact]
    public void With_the_power_kept_off_on_purpose_pulses_drive_nothing()
    {
        _bench.Unpowered = true;
        _bench.Set(Throttle, 30).ScanAfter(0, Speed, 0).Proceeds();
        _bench.ScanAfter(60, Speed, 0).Proceeds();
        _bench.Unpowered = false;
        _bench.ScanAfter(0.1, Speed, 0).Proceeds();
        _bench.ScanAfter(0.5, Speed, 0).Objects();
    }

    [Fact]
    public void A_servo_turns_nothing_and_is_not_missed()
    {
        Bench bench = new(new TachometerLostPlugin(), new TachometerLostOptions { Below = 300, From = 5, Within = 0.5 }, mode: ControllerMode.Servo);
        bench.Set(Throttle, 60).ScanAfter(0, Speed, 0).Proceeds();
        bench.ScanAfter(60, Speed, 0).Proceeds();
    }

    [Trait("Requirement", "SAF-088")]
    [Theory]
    [InlineData(Speed)]
    [InlineData(Throttle)]
    public void A_speed_or_a_throttle_that_cannot_be_read_counts_as_lost(string channel) => _bench.Bad(channel, BadCause.TooOld).Scan().Objects();
}
