using System.Text.Json.Nodes;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

public class CoastDownFitTests
{
    /// <summary>Source: closed form of J dw/dt = −(a + b w + c w²), standard integral (from memory); motor/motor_examples.json, coastdown_exact.</summary>
    [Fact]
    public void The_terms_of_a_known_coast_down_come_back_and_so_does_its_length()
    {
        JsonNode example = Reference.Json("motor/motor_examples.json")["coastdown_exact"]!, given = example["inputs"]!;
        double inertia = Reference.Number(given, "J");
        CoastDown truth = new(Reference.Number(given, "w0"), Reference.Number(given, "a") / inertia, Reference.Number(given, "b") / inertia, Reference.Number(given, "c") / inertia);
        CoastDownFit fit = Fit(truth, noise: 0.5, seed: 61, last: 0.05);
        Holds(Reference.Number(given, "a"), fit.Constant.Value!.Times(inertia));
        Holds(Reference.Number(given, "b"), fit.Linear.Value!.Times(inertia));
        Holds(Reference.Number(given, "c"), fit.Quadratic.Value!.Times(inertia));
        Near.Relative(Reference.Number(example, "t_stop_analytic"), fit.Trajectory.TimeTo(0), 2e-3);
    }

    [Fact]
    public void Terms_that_the_data_cannot_support_are_dropped_with_a_reason()
    {
        CoastDownFit fit = Fit(new CoastDown(900, 50, 0, 0), noise: 20, seed: 62, last: 0.1);
        Assert.NotNull(fit.Constant.Value);
        Assert.True(fit.Linear.Value is null || fit.Quadratic.Value is null, "both terms were kept");
        Assert.Contains(new[] { fit.Linear.Reason, fit.Quadratic.Reason }, r => r is { Length: > 0 });
        Near.Relative(50, fit.Constant.Value.Value, 0.05);
    }

    [Fact]
    public void Another_unit_of_time_and_a_later_start_do_not_move_the_terms()
    {
        CoastDown truth = new(900, 40, 0.01, 5e-5);
        CoastDownFit at = Fit(truth, 1, 63, 0.1), later = Fit(truth, 1, 63, 0.1, shift: 1000);
        Near.Relative(at.Constant.Value!.Value, later.Constant.Value!.Value, 1e-6);
        Near.Relative(at.Constant.Value.Uncertainty, later.Constant.Value.Uncertainty, 1e-3);
    }

    [Fact]
    public void More_noise_never_narrows_an_interval()
    {
        double last = 0;
        foreach (double noise in new[] { 0.3, 1, 3 })
        {
            double u = Fit(new CoastDown(900, 40, 0.01, 5e-5), noise, 64, 0.1).SpeedAt(2).Uncertainty;
            Assert.True(u > last, $"{noise} rpm gives {u}, less noise gave {last}");
            last = u;
        }
    }

    [Fact]
    public void A_few_readings_give_a_reason() =>
        Assert.Throws<NoFigureException>(() => CoastDownFit.Of(SpeedSignal.Of(new Series("rpm", 0, [0, 1, 2, 3, 4, 5], [9, 8, 7, 6, 5, 4])), 0, 5));

    private static CoastDownFit Fit(CoastDown truth, double noise, ulong seed, double last, double shift = 0)
    {
        SplitMix chance = new(seed);
        double stop = truth.TimeTo(last * truth.Initial), step = stop / 3000;
        double[] times = [.. Enumerable.Range(0, 3000).Select(i => shift + i * step)];
        double[] values = [.. times.Select(t => truth.Speed(t - shift) * 30 / Math.PI + noise * chance.Bell())];
        return CoastDownFit.Of(SpeedSignal.Of(new Series("rpm", 0, times, values)), shift, shift + stop);
    }

    private static void Holds(double truth, Measured found) =>
        Assert.InRange(truth, found.Value - 3.5 * found.Uncertainty, found.Value + 3.5 * found.Uncertainty);
}
