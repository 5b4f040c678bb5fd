using RigControl.Analysis.Figures;
using RigControl.Analysis.Inertias;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Inertias;

public class AddedInertiaTests
{
    private const double Inertia = 2e-4;

    /// <summary>Source: derived; the same drag on another inertia.</summary>
    [Fact]
    public void Two_coast_downs_give_the_inertia_within_its_interval()
    {
        SplitMix chance = new(12);
        int held = 0;
        for (int run = 0; run < 100; run++)
        {
            Measured found = AddedInertia.Of(CoastDown(Inertia, ref chance), CoastDown(Inertia + 1e-4, ref chance), new Input("ring", 1e-4, 5e-7));
            Near.Relative(Inertia, found.Value, 0.05);
            (double low, double high) = found.Interval95;
            held += low <= Inertia && Inertia <= high ? 1 : 0;
        }

        Assert.True(held >= 85, $"seed 12: {held} of 100 intervals hold the truth");
    }

    [Fact]
    public void Too_little_added_says_to_add_more()
    {
        SplitMix chance = new(13);
        CoastDownFit alone = CoastDown(Inertia, ref chance), together = CoastDown(Inertia * (1 + 1e-7), ref chance);
        Assert.Contains("add more", Assert.Throws<NoFigureException>(() => AddedInertia.Of(alone, together, new Input("ring", 2e-11, 0))).Message, StringComparison.Ordinal);
    }

    private static CoastDownFit CoastDown(double inertia, ref SplitMix chance)
    {
        Physics.CoastDown truth = new(900, 0.01 / inertia, 2e-6 / inertia, 1e-8 / inertia);
        double stop = truth.TimeTo(60);
        List<double> times = [], values = [];
        for (double t = 0; t < stop; t += 0.01)
        {
            times.Add(t);
            values.Add(30 / Math.PI * truth.Speed(t) + 3 * chance.Bell());
        }

        SpeedSignal signal = SpeedSignal.Of(new Series("rpm", 0, [.. times], [.. values]));
        return CoastDownFit.Of(signal, 0, stop);
    }
}
