namespace RigControl.Physics.Tests;

public class HeatStateTests
{
    private static readonly Heat Motor = new(12, 60, 1.5, 0.6);

    /// <summary>Closed form of one lump behind a perfect link: rise = P/G (1 − exp(−t G/C)); derived.</summary>
    [Fact]
    public void A_single_lump_warms_by_the_exponential_law()
    {
        var data = new Heat(50, 50, 1e6, 0.5);
        var state = new HeatState(20, 20);
        for (int i = 0; i < 2000; i++)
            state.Advance(data, 10, 0, 20, 0.1);
        Near.Relative(20 * (1 - Math.Exp(-200 * 0.5 / 100)), state.Outer - 20, 1e-4);
    }

    /// <summary>Closed form of two lumps by the eigenvalues of their equations; derived here, independently of the rule under test.</summary>
    [Theory]
    [InlineData(0.005, 1e-6)]
    [InlineData(0.5, 1e-3)]
    public void Two_lumps_warm_by_their_two_time_constants(double dt, double share)
    {
        var state = new HeatState(25, 25);
        const double time = 60, power = 20;
        for (int i = 0; i < (int)Math.Round(time / dt); i++)
            state.Advance(Motor, power, 0, 25, dt);
        (double inner, double outer) = ClosedForm(Motor, power, time);
        Near.Relative(inner, state.Inner - 25, share);
        Near.Relative(outer, state.Outer - 25, share);
    }

    [Fact]
    public void Long_heated_the_rise_is_power_times_the_resistances_in_a_row()
    {
        var state = new HeatState(20, 20);
        for (int i = 0; i < 5000; i++)
            state.Advance(Motor, 12, 0, 20, 1);
        Near.Relative(12 / 0.6, state.Outer - 20, 1e-6);
        Near.Relative(12 / 0.6 + 12 / 1.5, state.Inner - 20, 1e-6);
    }

    [Fact]
    public void No_heat_is_lost_or_made()
    {
        var state = new HeatState(20, 20);
        double givenOff = 0;
        for (int i = 0; i < 700; i++)
            givenOff += state.Advance(Motor, i < 300 ? 40 : 0, i < 100 ? 5 : 0, 20, 0.7);
        double stored = Motor.InnerCapacity * (state.Inner - 20) + Motor.OuterCapacity * (state.Outer - 20);
        Near.Relative((40 * 300 + 5 * 100) * 0.7, stored + givenOff, 1e-10);
    }

    [Fact]
    public void Without_power_everything_cools_to_the_surroundings()
    {
        var state = new HeatState(120, 60);
        for (int i = 0; i < 20000; i++)
            state.Advance(Motor, 0, 0, 15, 0.5);
        Near.Absolute(15, state.Inner, 1e-6);
        Near.Absolute(15, state.Outer, 1e-6);
    }

    [Fact]
    public void The_winding_warms_before_the_case()
    {
        var state = new HeatState(20, 20);
        state.Advance(Motor, 50, 0, 20, 0.5);
        Assert.True(state.Inner - 20 > 10 * (state.Outer - 20));
    }

    [Fact]
    public void After_the_load_the_case_still_warms_while_the_winding_cools()
    {
        var state = new HeatState(90, 30);
        state.Advance(Motor, 0, 0, 20, 0.5);
        Assert.True(state.Inner < 90);
        Assert.True(state.Outer > 30);
    }

    [Fact]
    public void At_the_temperature_of_the_surroundings_nothing_happens()
    {
        var state = new HeatState(20, 20);
        Near.Absolute(0, state.Advance(Motor, 0, 0, 20, 1), 1e-9);
        Near.Absolute(20, state.Inner, 1e-9);
    }

    private static (double Inner, double Outer) ClosedForm(Heat data, double power, double time)
    {
        double a = data.InnerToOuter / data.InnerCapacity;
        double b = data.InnerToOuter / data.OuterCapacity;
        double c = data.OuterToAmbient / data.OuterCapacity;
        double mean = (a + b + c) / 2;
        double root = Math.Sqrt(mean * mean - a * c);
        double fast = mean + root, slow = mean - root;
        double steadyOuter = power / data.OuterToAmbient;
        double steadyInner = steadyOuter + power / data.InnerToOuter;
        // inner = steady + A e^(-slow t) + B e^(-fast t); outer follows from the inner's equation, both zero at first.
        double ratioSlow = (a - slow) / a, ratioFast = (a - fast) / a;
        double fastPart = (steadyOuter - ratioSlow * steadyInner) / (ratioSlow - ratioFast);
        double slowPart = -steadyInner - fastPart;
        double es = Math.Exp(-slow * time), ef = Math.Exp(-fast * time);
        return (steadyInner + slowPart * es + fastPart * ef, steadyOuter + ratioSlow * slowPart * es + ratioFast * fastPart * ef);
    }
}
