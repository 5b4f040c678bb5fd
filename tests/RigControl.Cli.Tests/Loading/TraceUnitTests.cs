using System.Globalization;
using System.Text;
using CsCheck;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Cli.Loading;
using RigControl.Documents.Traces;
using RigControl.Documents.Values;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Cli.Tests.Loading;

/// <summary>A trace tells the same figures in whatever units its columns are written.</summary>
public class TraceUnitTests
{
    private static readonly (string Channel, string Unit)[] Columns =
        [("rotor.speed", "rpm"), ("battery.voltage", "V"), ("battery.current", "A"), ("motor.temperature", "degC"), ("output.throttle", "%")];

    private static readonly Article Disc = TraceFile.Article(Installed.Sample("disc-180.article.yaml")).Article;

    private static readonly double[][] Rows = Recorded();

    private static readonly IReadOnlyList<Figure> Plain = Figures([.. Columns.Select(c => c.Unit)]);

    private static readonly Gen<string[]> AnyUnits = Gen.Int[0, 999].Array[Columns.Length].Select(picks =>
        picks.Select((p, i) => Units.Accepted(Columns[i].Unit) is var units ? units[p % units.Count] : "").ToArray());

    [Fact]
    public void The_trace_gives_figures_of_speed_pack_and_heat() => Assert.All(
        ["peak-speed", "stored-energy", "drag-constant", "coast-down-time", "energy-used", "pack-resistance", "temperature-rise"],
        n => Assert.NotNull(Plain.First(f => f.Name == n).Value));

    [Fact]
    public void Any_units_of_the_columns_leave_every_figure_its_value_unit_and_uncertainty() => AnyUnits.Sample(units =>
    {
        IReadOnlyList<Figure> changed = Figures(units);
        Assert.Equal(Plain.Select(f => (f.Name, f.Repeat, f.Unit, f.Value is null)), changed.Select(f => (f.Name, f.Repeat, f.Unit, f.Value is null)));
        foreach ((Figure before, Figure after) in Plain.Zip(changed).Where(p => p.First.Value is not null))
        {
            double known = before.StandardUncertainty ?? 0, allowed = 0.01 * known + 1e-6 * Math.Abs(before.Value!.Value);
            Assert.True(Math.Abs(after.Value!.Value - before.Value.Value) <= allowed, $"{string.Join(", ", units)}: {before.Name} {before.Value} became {after.Value}");
            Assert.True(Math.Abs((after.StandardUncertainty ?? 0) - known) <= 0.02 * known + 1e-9 * Math.Abs(before.Value.Value), $"{string.Join(", ", units)}: {before.Name} ± {known} became ± {after.StandardUncertainty}");
        }
    }, iter: 30, threads: 1);

    private static IReadOnlyList<Figure> Figures(string[] units)
    {
        StringBuilder text = new("time [s]," + string.Join(',', Columns.Select((c, i) => $"{c.Channel} [{units[i]}]")) + "\r\n");
        foreach (double[] row in Rows)
        {
            IEnumerable<string> cells = row.Skip(1).Select((v, i) => Units.Convert(v, Columns[i].Unit, units[i]).ToString("R", CultureInfo.InvariantCulture));
            text.Append(CultureInfo.InvariantCulture, $"{row[0]:0.00},").AppendJoin(',', cells).Append("\r\n");
        }

        RecordedTrace recorded = TraceReader.Read(new StringReader(text.ToString()), "trace.csv").Value ?? throw new InvalidOperationException("the trace was refused");
        return TraceAnalysis.Of(TraceFile.TraceOf(recorded), Disc, FigureContext.UsualRestSpeed, null).Figures;
    }

    // A first-order rise from 1 s, a hold, and a fall from 6 s, with readings that scatter; the same at every call.
    private static double[][] Recorded()
    {
        Random chance = new(23);
        double Scatter(double by) => by * (chance.NextDouble() + chance.NextDouble() - 1);
        return [.. Enumerable.Range(0, 1800).Select(i =>
        {
            double t = 0.01 * i;
            bool driven = t is >= 1 and < 6;
            double speed = t < 1 ? 0 : driven ? 9000 * (1 - Math.Exp(-(t - 1) / 0.5)) : Math.Max(0, 9000 - 1000 * (t - 6));
            double current = (driven ? 5 + 20 * Math.Exp(-(t - 1) / 0.5) : 0.2) + Scatter(0.1);
            return new[] { t, speed + (speed > 0 ? Scatter(8) : 0), 16 - 0.02 * current + Scatter(0.02), current, 25 + (t < 1 ? 0 : 10 * (1 - Math.Exp(-(t - 1) / 8))) + Scatter(0.1), driven ? 60 : 0 };
        })];
    }
}
