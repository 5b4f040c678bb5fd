namespace RigControl.Physics.Tests;

public class DriveCircuitTests
{
    private static readonly DriveCircuit Circuit = new()
    {
        Source = 12, PackResistance = 0.03, LoopResistance = 0.066, EmfConstant = 0.0095, Limit = 1000,
    };

    [Theory]
    [InlineData(0.2)]
    [InlineData(0.6)]
    [InlineData(1)]
    [InlineData(-0.6)]
    public void The_pack_gives_the_duty_share_of_the_winding_current(double duty)
    {
        double speed = 200 * Math.Sign(duty);
        double current = Circuit.Drive(duty, speed, out _);
        double power = current * current * Circuit.LoopResistance + Circuit.EmfConstant * speed * current;
        Near.Relative(duty * current, Circuit.PackCurrent(power), 1e-9);
    }

    [Fact]
    public void At_rest_and_full_duty_only_the_resistances_limit_the_current()
        => Near.Relative(12 / 0.096, Circuit.Drive(1, 0, out _), 1e-12);

    [Fact]
    public void Current_ends_at_the_speed_where_the_back_emf_equals_the_duty_share()
    {
        double speed = 0.5 * 12 / 0.0095;
        Assert.True(Circuit.Drive(0.5, speed * 0.999, out _) > 0);
        Assert.Equal(0, Circuit.Drive(0.5, speed * 1.001, out _));
    }

    [Fact]
    public void The_slope_is_the_change_of_current_with_speed()
    {
        double here = Circuit.Drive(0.8, 300, out double slope);
        Near.Relative((Circuit.Drive(0.8, 301, out _) - here) / 1, slope, 1e-9);
    }

    [Theory]
    [InlineData(1, 25)]
    [InlineData(-1, -25)]
    public void The_limit_holds_both_ways(double duty, double expected)
    {
        DriveCircuit limited = Circuit;
        limited.Limit = 25;
        Assert.Equal(expected, limited.Drive(duty, 0, out double slope));
        Assert.Equal(0, slope);
    }

    [Fact]
    public void At_the_limit_the_pack_gives_less_than_the_duty_share_for_the_controller_has_throttled_down()
    {
        DriveCircuit limited = Circuit;
        limited.Limit = 25;
        double current = limited.Drive(1, 100, out _);
        double power = current * current * limited.LoopResistance + limited.EmfConstant * 100 * current;
        double pack = limited.PackCurrent(power);
        Assert.True(pack < current);
        Near.Relative(power, pack * (limited.Source - limited.PackResistance * pack), 1e-12);
    }

    [Fact]
    public void Shorted_windings_pull_against_the_rotation()
    {
        Assert.True(Circuit.Brake(500, out double slope) < 0);
        Assert.True(Circuit.Brake(-500, out _) > 0);
        Assert.True(slope < 0);
        Assert.Equal(0, Circuit.Brake(0, out _));
    }

    [Fact]
    public void Nothing_is_driven_at_zero_duty() => Assert.Equal(0, Circuit.Drive(0, 100, out _));

    [Fact]
    public void Power_that_comes_back_never_charges_the_pack() => Assert.Equal(0, Circuit.PackCurrent(-50));

    [Fact]
    public void A_pack_without_resistance_gives_power_over_voltage()
    {
        DriveCircuit stiff = Circuit;
        stiff.PackResistance = 0;
        Near.Relative(60.0 / 12, stiff.PackCurrent(60), 1e-12);
    }

    [Fact]
    public void An_empty_pack_gives_nothing()
    {
        DriveCircuit empty = Circuit;
        empty.Source = 0;
        Assert.Equal(0, empty.Drive(1, 0, out _));
        Assert.Equal(0, empty.PackCurrent(0));
    }
}
