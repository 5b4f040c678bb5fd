namespace RigControl.Physics.Tests;

public class DragTests
{
    private static readonly Drag Drag = new(0.01, 1e-5, 3e-8, 0.02);

    [Fact]
    public void Drag_is_the_sum_of_its_three_parts() => Near.Relative(0.01 + 1e-5 * 200 + 3e-8 * 40000, Drag.Torque(200), 1e-12);

    [Fact]
    public void The_slope_is_the_change_of_torque()
        => Near.Relative((Drag.Torque(300.001) - Drag.Torque(299.999)) / 0.002, Drag.Slope(300), 1e-6);

    [Fact]
    public void At_rest_the_breakaway_torque_holds() => Assert.Equal(0.02, Drag.Holding);

    [Fact]
    public void A_breakaway_below_the_constant_part_counts_as_the_constant_part()
        => Assert.Equal(0.01, (Drag with { Breakaway = 0.001 }).Holding);

    [Fact]
    public void More_friction_resists_both_at_rest_and_turning()
    {
        Drag more = Drag.Plus(0.005);
        Near.Relative(0.025, more.Holding, 1e-12);
        Near.Relative(Drag.Torque(100) + 0.005, more.Torque(100), 1e-12);
    }

    [Fact]
    public void Drag_that_nobody_set_resists_nothing() => Assert.Equal(0, default(Drag).Torque(1000));
}
