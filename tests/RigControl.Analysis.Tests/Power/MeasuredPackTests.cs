using RigControl.Analysis.Figures;
using RigControl.Analysis.Power;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Tests.Power;

public class MeasuredPackTests
{
    /// <summary>
    /// Source: discharges of a 2.28 Ah pouch cell at 0.5C and 1C, every second, Ai et al., J. Electrochem. Soc. 167 (2020) 013512 (read);
    /// charge and energy recomputed from them: 2.3145 Ah and 8.6703 Wh, 2.2889 Ah and 8.4061 Wh.
    /// </summary>
    [Theory]
    [InlineData("half_c", 1.14, 2.3145, 8.6703)]
    [InlineData("1c", 2.28, 2.2889, 8.4061)]
    public void A_measured_discharge_gives_the_published_charge_and_energy(string file, double current, double charge, double energy)
    {
        double[][] rows = Reference.Rows($"opendata/cells/voltage_{file}.txt");
        double[] times = [.. rows.Select(r => r[0])];
        MadeTrace trace = new MadeTrace()
            .Samples("battery.voltage", "V", times, [.. rows.Select(r => r[1])])
            .Samples("battery.current", "A", times, [.. times.Select(_ => current)]);
        Near.Relative(charge, trace.Figure("charge-used").Value!.Value, 5e-5, "Ah");
        Near.Relative(energy, trace.Figure("energy-used").Value!.Value, 5e-5, "Wh");
    }

    /// <summary>Source: the same two discharges: at equal charge twice the current lies lower by resistance times the difference (derived).</summary>
    [Fact]
    public void Two_measured_loads_of_one_cell_show_its_resistance_as_a_step_does()
    {
        double[][] half = Reference.Rows("opendata/cells/voltage_half_c.txt"), full = Reference.Rows("opendata/cells/voltage_1c.txt");
        // Half the charge is reached after 3600 s and after 1800 s.
        double apart = half[3600][1] - full[1800][1];
        double direct = apart / 1.14;
        Assert.InRange(direct, 0.02, 0.08);
        // The loads one after the other, two minutes each, as a run would show them at that charge.
        double[] times = [.. Enumerable.Range(0, 240).Select(i => (double)i)];
        double[] current = [.. times.Select(t => t < 120 ? 1.14 : 2.28)];
        double[] voltage = [.. times.Select(t => t < 120 ? half[3600 + (int)t][1] : full[1800 + (int)(t - 120)][1])];
        PackFit fit = PackFit.Of(new Series("V", 0, times, voltage), new Series("A", 0, times, current));
        Near.Relative(direct, fit.Resistance.Value, 0.1);
    }

    [Fact]
    public void The_share_of_a_match_counts_length_and_duty_and_tells_the_margin()
    {
        // Common practice, no source: a match is about three minutes.
        (Measured share, double margin) = PackFit.Match(new Measured(20, 1), length: 180, duty: 0.6, new Input("capacity", 1.3, 0.05));
        Near.Relative(20 * 180 * 0.6 / 3600 / 1.3, share.Value, 1e-9);
        Near.Relative(Math.Sqrt(Math.Pow(1.0 / 20, 2) + Math.Pow(0.05 / 1.3, 2)), share.Uncertainty / share.Value, 0.02);
        Near.Relative((1 - share.Value) / share.Uncertainty, margin, 1e-12);
        Assert.True(PackFit.Match(new Measured(60, 1), 180, 0.6, new Input("capacity", 1.3, 0.05)).Margin < 0, "a pack that is too small has no margin");
    }
}
