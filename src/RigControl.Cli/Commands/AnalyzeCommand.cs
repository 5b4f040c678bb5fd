using System.CommandLine;
using System.Globalization;
using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Calibrating;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Reckonings;
using RigControl.Cli.Reporting;
using RigControl.Documents.Traces;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>analyze</c>: figures from a trace recorded elsewhere.</summary>
internal static class AnalyzeCommand
{
    public static Command Build()
    {
        Argument<string> trace = new("TRACE.csv") { Description = "Trace with a header such as `time [s],rotor.speed [rpm]`; - is standard input." };
        Option<string?> article = new("--article") { Description = "Article file; without one, figures that need inertia, radius or capacity have a reason instead of a number.", HelpName = "FILE" };
        Option<double> rest = new("--rest-speed") { Description = "Speed at which a coast-down counts as done, rpm.", HelpName = "RPM", DefaultValueFactory = _ => FigureContext.UsualRestSpeed };
        AskedOptions asked = new();
        Option<string?> calibrations = new("--calibrations") { Description = "File of calibrations, as the command calibrate keeps them, to correct the trace by.", HelpName = "FILE" };
        Option<string?> rig = new("--rig-name") { Description = "Name of the rig whose calibrations are meant. Default: that of the only rig in the file.", HelpName = "NAME" };
        Option<string[]> limit = new("--limit") { Description = "Temperature for time-to-limit and continuous-current, as CHANNEL=DEGC, as often as wanted; there is none by default.", HelpName = "CHANNEL=DEGC" };
        Option<string?> added = new("--added-inertia") { Description = $"Inertia that the second of two repeats has more, for the rotor's own, as {StatedValue.HowToWrite}; a bare number is in kg.m2, and without U it counts as exact.", HelpName = "QUANTITY" };
        Option<string?> fits = new("--fits") { Description = "Draws every fit of the trace as well, each into a file of its own: FILE ends in .png or .svg, and its stem begins their names.", HelpName = "FILE" };
        Option<bool> json = CommonOptions.Json();
        Command command = new("analyze", "Computes figures from a trace recorded elsewhere.") { trace, article, rest, limit, added, calibrations, rig, fits, json };
        asked.AddTo(command);
        command.SetAction(parsed =>
        {
            if (!(parsed.GetValue(rest) > 0))
                throw new CliException(ExitCode.BadInput, "--rest-speed is above 0 rpm");
            AskedAt at = asked.Read(parsed);
            string? pictures = parsed.GetValue(fits), ending = pictures is null ? null : FitFiles.EndingOf(pictures);
            Input? more = parsed.GetValue(added) is { } stated ? StatedValue.Positive(stated, "added inertia", "kg.m2", bare: true) : null;
            RecordedTrace recorded = TraceFile.Read(parsed.GetValue(trace)!);
            Article? declared = parsed.GetValue(article) is { } file ? TraceFile.Article(file).Article : null;
            TraceAnalysis analysis = TraceAnalysis.Of(
                TraceFile.TraceOf(recorded), declared, parsed.GetValue(rest), at, Corrections(parsed.GetValue(calibrations), parsed.GetValue(rig)), DateTimeOffset.UtcNow, Limits(parsed.GetValue(limit) ?? []), more);
            if (parsed.GetValue(json))
                JsonText.Write(AnalysisDocument.Of(analysis));
            else
                Print(analysis);
            if (pictures is not null)
                TraceFits.Write(analysis.Input, more, pictures, ending!, parsed.GetValue(json) ? Console.Error : Console.Out);
            return ExitCode.Done;
        });
        return command;
    }

    private static Dictionary<string, double> Limits(string[] texts)
    {
        Dictionary<string, double> limits = [];
        foreach (string text in texts)
        {
            int place = text.IndexOf('=', StringComparison.Ordinal);
            if (place <= 0 || !double.TryParse(text.AsSpan(place + 1), NumberStyles.Float, CultureInfo.InvariantCulture, out double limit) || !double.IsFinite(limit))
                throw new CliException(ExitCode.BadInput, $"'{text}' is no limit: write it as motor.temperature=80, in degC");
            limits[text[..place]] = limit;
        }

        return limits;
    }

    private static IReadOnlyDictionary<string, Calibration>? Corrections(string? path, string? rig)
    {
        if (path is null)
            return null;
        if (!File.Exists(path))
            throw new CliException(ExitCode.BadInput, $"{path}: there is no such file of calibrations");
        CalibrationFile file = new(path);
        string[] rigs = [.. file.Read().Select(c => c.Rig).Distinct()];
        return rig is null && rigs.Length > 1
            ? throw new CliException(ExitCode.BadInput, $"{path} holds calibrations of {string.Join(", ", rigs)}; name one with --rig-name")
            : file.Of(rig ?? rigs.FirstOrDefault() ?? "");
    }

    private static void Print(TraceAnalysis analysis)
    {
        foreach (Segment s in analysis.Segments)
            Console.WriteLine($"repeat {s.Repeat}: rise {At(s.RiseAt)}, hold {At(s.HoldAt)}, stop output {At(s.ReleaseAt)}, end {At(s.EndAt)}");
        foreach (string line in FigureText.Table([.. analysis.Figures.Where(f => f.Value is not null)]))
            Console.WriteLine(line);
        foreach (IGrouping<string, Figure> none in analysis.Figures.Where(f => f.Value is null).GroupBy(f => f.Note ?? ""))
            Console.WriteLine($"no {string.Join(", ", none.Select(f => f.Name).Distinct())}: {none.Key}");
        foreach (string note in analysis.Notes)
            Console.WriteLine(note);
    }

    private static string At(double time) => double.IsNaN(time) ? "not seen" : time.ToString("at 0.000 s", CultureInfo.InvariantCulture);
}
