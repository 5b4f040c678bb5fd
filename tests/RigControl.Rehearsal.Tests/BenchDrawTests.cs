using RigControl.Physics;
using RigControl.Rehearsal.Bench;

namespace RigControl.Rehearsal.Tests;

public class BenchDrawTests
{
    private static readonly BenchParameters Likely = new();

    [Theory]
    [InlineData(1ul)]
    [InlineData(2ul)]
    public void Draws_scatter_around_what_is_declared_as_widely_as_it_is_known(ulong seed)
    {
        Spread spread = new();
        double[] kv = Draw(seed, b => b.Motor.SpeedConstant / Likely.Motor.SpeedConstant, spread);
        double[] drag = Draw(seed, b => b.Rotor.Drag.Constant / Likely.Rotor.Drag.Constant, spread);
        Assert.Equal(1, kv.Average(), 0.004);
        Assert.Equal(spread.SpeedConstant, Deviation(kv), 0.003);
        Assert.Equal(spread.Drag, Deviation(drag), 0.02);
    }

    [Fact]
    public void The_same_seed_draws_the_same_bench() => Assert.Equal(BenchDraw.Draw(Likely, new Spread(), 5), BenchDraw.Draw(Likely, new Spread(), 5));

    [Fact]
    public void What_a_file_states_takes_the_place_of_what_is_usual()
    {
        Spread spread = Spread.Of(new Dictionary<string, double> { ["kv"] = 0.01, ["drag"] = 0.5 });
        Assert.Equal((0.01, 0.5, new Spread().Inertia), (spread.SpeedConstant, spread.Drag, spread.Inertia));
    }

    [Fact]
    public void Every_bench_drawn_is_one_that_can_be()
    {
        for (ulong seed = 0; seed < 500; seed++)
            Assert.NotNull(new Physics.Bench(BenchDraw.Draw(Likely, new Spread { Drag = 0.5, Heat = 0.5, PackResistance = 0.5 }, seed), seed));
    }

    private static double[] Draw(ulong seed, Func<BenchParameters, double> of, Spread spread) =>
        [.. Enumerable.Range(0, 2000).Select(i => of(BenchDraw.Draw(Likely, spread, seed * 100_003 + (ulong)i)))];

    private static double Deviation(double[] values) => Math.Sqrt(values.Select(v => (v - values.Average()) * (v - values.Average())).Sum() / (values.Length - 1));
}
