using System.Globalization;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Cli.Comparing;

/// <summary>
/// What was not the same on the two sides of a comparison and may explain a difference by itself. Each is a sentence. How far
/// pack and ambient may differ unsaid is common practice, with no source.
/// </summary>
internal static class ConditionReader
{
    // Relative, of the pack's voltage before the first rise.
    private const double WorthVoltage = 0.01;
    private const double WorthAmbient = 2;
    private const int FirstSamples = 4000;

    public static IReadOnlyList<string> Differences(LogbookFile book, RunGroup a, RunGroup b)
    {
        List<string> told = [];
        DifferInText(told, "the rig files", a, b, h => h.Rig.Text);
        Differ(told, "the articles", a, b, h => h.Article.Name);
        if (told.All(t => !t.StartsWith("the articles", StringComparison.Ordinal)))
            DifferInText(told, "the article files", a, b, h => h.Article.Text);
        DifferInText(told, "the procedures", a, b, h => h.Procedure.Text);
        Differ(told, "devices or their firmware", a, b, h => string.Join("; ", h.Devices.Select(d => $"{d.Id} {d.Plugin} {d.Facts.GetValueOrDefault("firmware")} {d.Facts.GetValueOrDefault("serial")}")));
        Differ(told, "plugins", a, b, h => string.Join("; ", h.Plugins.Select(p => $"{p.Assembly} {p.Version} {p.Digest}").Order()));
        Differ(told, "the versions of this program", a, b, h => h.Software);
        Differ(told, "the operators", a, b, h => h.Operator);
        AtStart(told, book, a, b, ChannelNames.BatteryVoltage, "the pack began at", "V", v => WorthVoltage * v);
        AtStart(told, book, a, b, ChannelNames.AmbientTemperature, "the air was at", "degC", _ => WorthAmbient);
        AtStart(told, book, a, b, ChannelNames.MotorTemperature, "the motor began at", "degC", _ => WorthAmbient);
        if (a.Runs.Count == 1 && b.Runs.Count == 1)
            told.Add("one run on each side: what changes from run to run, such as mounting and warming, is in the difference; `plan` lays out an order that takes it out");
        else if (Blocks(a, b))
            told.Add("all runs of one side were made before all of the other: what drifted meanwhile is in the difference; `plan` lays out an interleaved order");
        return told;
    }

    private static void Differ(List<string> told, string what, RunGroup a, RunGroup b, Func<RunHeader, string> of)
    {
        string[] first = [.. a.Runs.Select(r => of(r.Header)).Distinct()], second = [.. b.Runs.Select(r => of(r.Header)).Distinct()];
        if (first.Union(second).Count() == 1)
            return;
        string named = first.Length == 1 && second.Length == 1 && first[0].Length + second[0].Length is > 0 and < 120 && !first[0].Contains('\n', StringComparison.Ordinal) ? $": {first[0]} and {second[0]}" : "";
        told.Add($"{what} differ{named}");
    }

    // Pack and enclosure are sections of these files.
    private static void DifferInText(List<string> told, string what, RunGroup a, RunGroup b, Func<RunHeader, string> of)
    {
        string[] first = Alike(a, of), second = Alike(b, of);
        if (first.Length > 1 || second.Length > 1)
            told.Add($"{what} differ, also among the runs of one side");
        else if (first[0].Length == 0 != (second[0].Length == 0))
            told.Add($"{what} differ: one side has none");
        else if (!DocumentDifference.Alike(first[0], second[0]))
            told.Add($"{what} differ in {string.Join(", ", DocumentDifference.Of(first[0], second[0]))}");
    }

    private static string[] Alike(RunGroup group, Func<RunHeader, string> of)
    {
        List<string> different = [];
        foreach (string text in group.Runs.Select(r => of(r.Header)))
        {
            if (!different.Exists(d => DocumentDifference.Alike(d, text)))
                different.Add(text);
        }

        return [.. different];
    }

    private static void AtStart(List<string> told, LogbookFile book, RunGroup a, RunGroup b, string channel, string began, string unit, Func<double, double> worth)
    {
        double first = Mean(book, a, channel), second = Mean(book, b, channel);
        if (Math.Abs(second - first) > worth(Math.Abs(first)))
            told.Add(string.Create(CultureInfo.InvariantCulture, $"{began} {first:0.0#} {unit} on one side and {second:0.0#} {unit} on the other"));
    }

    private static double Mean(LogbookFile book, RunGroup group, string channel)
    {
        double[] found = [.. group.Runs.Select(r => First(book, r.Header, channel)).Where(v => !double.IsNaN(v))];
        return found.Length > 0 ? found.Average() : double.NaN;
    }

    /// <summary>The first usable reading of a channel in a run; not a number where it has none.</summary>
    public static double First(LogbookFile book, RunHeader header, string name)
    {
        if (header.Channels.FirstOrDefault(c => c.Name == name) is not { } channel)
            return double.NaN;
        foreach (Sample sample in book.Samples(header.Run, channel.Device).Take(FirstSamples))
        {
            if (sample.Channel == channel.Index && sample.Quality != Quality.Bad)
                return sample.Value;
        }

        return double.NaN;
    }

    private static bool Blocks(RunGroup a, RunGroup b) =>
        a.Runs[^1].Header.StartedAt < b.Runs[0].Header.StartedAt || b.Runs[^1].Header.StartedAt < a.Runs[0].Header.StartedAt;
}
