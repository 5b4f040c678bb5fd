using System.Text.Json.Nodes;

namespace RigControl.Physics.Tests;

public class RotorTests
{
    /// <summary>Source: handbook formulas, values derived; a solid disc of 0.5 kg and 0.1 m radius at 8000 rpm; mech/rotor_energy.json.</summary>
    [Fact]
    public void Stored_energy_and_tip_speed_agree_with_the_handbook()
    {
        JsonNode expected = Reference.Json("mech/rotor_energy.json");
        var rotor = new Rotor(Body.Disc(0.5, 0.1).Inertia, 0.1, default, 1);
        double speed = 8000 * Math.PI / 30;
        Near.Relative(expected.Value("I"), rotor.Inertia, 1e-12);
        Near.Relative(expected.Value("omega"), speed, 1e-12);
        Near.Relative(expected.Value("E_J"), rotor.Energy(speed), 1e-12);
        Near.Relative(expected.Value("tip_m_s"), rotor.TipSpeed(speed), 1e-12);
    }

    [Fact]
    public void A_rotor_turning_backwards_stores_and_reaches_as_much()
    {
        var rotor = new Rotor(1e-3, 0.1, default, 1);
        Assert.Equal(rotor.Energy(500), rotor.Energy(-500));
        Assert.Equal(rotor.TipSpeed(500), rotor.TipSpeed(-500));
    }
}
