namespace RigControl.Physics.Tests;

/// <summary>What the trade knows of rotors, held against the bench. Common practice, no source.</summary>
public class TradeFactsTests
{
    private const double Heavy = 1e-4;

    /// <summary>A rotor's top speed is set by the air and the motor; its inertia only stretches the time to reach it.</summary>
    [Theory]
    [InlineData(0.25)]
    [InlineData(0.5)]
    [InlineData(2)]
    public void A_mock_up_of_the_same_shape_finds_the_same_steady_speed_in_a_time_as_its_inertia(double share)
    {
        (double speed, double time) = Risen(Heavy);
        (double mockUp, double itsTime) = Risen(share * Heavy);
        Near.Relative(speed, mockUp, 1e-3);
        Near.Relative(share * time, itsTime, 0.05);
    }

    [Fact]
    public void More_air_to_push_lowers_the_steady_speed_of_the_same_inertia()
    {
        double slow = Risen(Heavy, air: 4e-7).Speed, fast = Risen(Heavy).Speed;
        Assert.InRange(slow / fast, 0.5, 0.95);
    }

    // Steady speed in rad/s under 60 %, and s to nine tenths of it.
    private static (double Speed, double Time) Risen(double inertia, double air = 1e-7)
    {
        BenchParameters ideal = Session.Ideal(new Drag(0.001, 0, air, 0.001));
        List<(double Time, double Speed)> rise = [];
        Session session = new Session(ideal with { Rotor = ideal.Rotor with { Inertia = inertia } }, dt: 0.001).Arm();
        double from = session.Truth.Time;
        session.Drive(new BenchDrive(1600, true, false), 4, t => rise.Add((t.Time - from, t.Speed)));
        double top = rise[^1].Speed;
        Near.Relative(top, rise[^500].Speed, 1e-4);
        return (top, rise.First(r => r.Speed >= 0.9 * top).Time);
    }
}
