using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>What a rotor stores at the ceiling of its verification is told as a number; nothing is judged by it.</summary>
public class CeilingEnergyTests
{
    private static readonly VerificationCeiling Ceiling = new(0.1, 3000);

    // 3000 rpm are 100 pi rad/s.
    [Fact]
    public void It_is_half_the_declared_inertia_times_the_square_of_the_ceiling_s_speed()
    {
        CeilingEnergy told = new(Ceiling, new Rotor(2e-4, 0.05, 0.2, 9000), IsRemoved: false);
        Assert.Equal(1e-4 * Math.Pow(100 * Math.PI, 2), told.Energy!.Value, 1e-9);
        Assert.Equal("the ceiling is 10 % throttle and 3000 rpm: the rotor stores 9.87 J there, with its declared 0.0002 kg.m2; see that what stands around it holds that", told.Sentence);
    }

    [Fact]
    public void Twice_the_speed_stores_four_times_as_much()
    {
        Rotor rotor = new(2e-4, 0.05, 0.2, 9000);
        Assert.Equal(4, new CeilingEnergy(Ceiling with { Speed = 6000 }, rotor, false).Energy!.Value / new CeilingEnergy(Ceiling, rotor, false).Energy!.Value, 1e-12);
    }

    [Fact]
    public void With_the_rotor_said_to_be_off_it_is_what_there_would_be() =>
        Assert.EndsWith("the rotor is said to be off; with it on there would be 9.87 J", new CeilingEnergy(Ceiling, new Rotor(2e-4, 0.05, 0.2, 9000), IsRemoved: true).Sentence, StringComparison.Ordinal);

    [Fact]
    public void Of_an_article_without_a_rotor_no_number_is_made_up()
    {
        CeilingEnergy told = new(Ceiling, null, IsRemoved: false);
        Assert.Null(told.Energy);
        Assert.EndsWith("the article declares no rotor, and what the motor's own stores is not known", told.Sentence, StringComparison.Ordinal);
        Assert.Contains("and what the motor's own rotor stores there is not known", told.Asked, StringComparison.Ordinal);
    }

    // A result that is read afterwards is too late for whoever stands there.
    [Fact]
    public void Who_arms_the_power_for_the_first_time_has_been_told_what_the_rotor_stores()
    {
        using Verified verified = Verified.On(new TestRig { Verifies = VerificationScope.Whole });
        // 3000 rpm are 100 pi rad/s, and half of 4e-5 kg.m2 times its square is 1.97 J.
        RigEvent told = Assert.Single(verified.Events, e => e.Text.Contains("J. Arm (a) only if", StringComparison.Ordinal));
        Assert.EndsWith("arm, repeat 1 of 1: Power comes on from here: at most 15 % throttle and 3000 rpm, at which the rotor, where it is on, stores 1.97 J. Arm (a) only if what stands around it holds that.", told.Text, StringComparison.Ordinal);
        Assert.True(told.At < verified.Record.Scans.First(s => s.Outputs.Power).Now);
    }
}
