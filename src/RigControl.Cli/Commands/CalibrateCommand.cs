using System.CommandLine;
using System.Globalization;
using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Pictures;
using RigControl.Cli.Calibrating;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Reporting;
using RigControl.Documents.Values;
using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Commands;

/// <summary><c>calibrate</c>: points of a channel against a reference, fitted, shown and kept.</summary>
internal static class CalibrateCommand
{
    private static readonly Argument<string> Channel = new("CHANNEL") { Description = "Channel to calibrate, such as battery.current." };
    private static readonly Option<string[]> Point = new("--point") { Description = "A point as READING=REFERENCE in the channel's unit, as often as wanted; without any, the rig is read and the references are asked for.", HelpName = "READING=REFERENCE" };
    private static readonly Option<string?> Unit = new("--unit") { Description = "Unit of points given with --point. Default: that of a rig's channel.", HelpName = "UNIT" };
    private static readonly Option<double> PointUncertainty = new("--point-uncertainty") { Description = "Standard uncertainty of each reading and reference by itself, in the channel's unit. Default: for a rig that is read, as its readings scatter; points given with --point then count alike, and what is left over tells how well they are known.", HelpName = "U" };
    private static readonly Option<double> ReferenceUncertainty = new("--reference-uncertainty") { Description = "Standard uncertainty that all references share, in the channel's unit.", HelpName = "U" };
    private static readonly Option<CalibrationKind> Kind = new("--kind") { Description = "What is corrected: offset, gain, line or curve.", DefaultValueFactory = _ => CalibrationKind.Line };
    private static readonly Option<string> Reference = new("--reference") { Description = "What the readings are held against, in a few words.", DefaultValueFactory = _ => "", HelpName = "TEXT" };
    private static readonly Option<string> Conditions = new("--conditions") { Description = "Under what conditions, in a few words.", DefaultValueFactory = _ => "", HelpName = "TEXT" };
    private static readonly Option<int?> ValidDays = new("--valid-days") { Description = "Days until it counts as expired, 1 to 3650. Default: never.", HelpName = "DAYS" };
    private static readonly Option<bool> Tare = new("--tare") { Description = "Take the present reading for nothing, and keep the curve that is in force; kept with its own date and uncertainty." };
    private static readonly Option<string?> Plot = new("--plot") { Description = "Draws points, correction, 95 % band and what is left over into a file ending in .png or .svg.", HelpName = "FILE" };
    private static readonly Option<string?> Store = new("--calibrations") { Description = "File of calibrations. Default: beside the logbook.", HelpName = "FILE" };
    private static readonly Option<string?> RigFile = CommonOptions.Rig(), ArticleFile = CommonOptions.Article(), Plugins = CommonOptions.Plugins(), Logbook = CommonOptions.Logbook();
    private static readonly Option<bool> Json = CommonOptions.Json();

    public static Command Build()
    {
        Command command = new("calibrate", "Holds a channel against a reference, fits a correction with its uncertainty, and keeps it.")
        {
            Channel, Point, Unit, PointUncertainty, ReferenceUncertainty, Kind, Reference, Conditions, ValidDays, Tare, Plot, Store, Logbook, RigFile, ArticleFile, Plugins, Json,
        };
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        if (parsed.GetValue(ValidDays) is < 1 or > 3650 || !(parsed.GetValue(ReferenceUncertainty) >= 0) || !(parsed.GetValue(PointUncertainty) >= 0))
            throw new CliException(ExitCode.BadInput, "--valid-days is 1 to 3650, and an uncertainty 0 or more");
        if (parsed.GetValue(Plot) is { } picture && FitFiles.EndingOf(picture).Length > 0 && parsed.GetValue(Tare))
            throw new CliException(ExitCode.BadInput, "--plot draws points and a tare has none: leave one of them out");
        CalibrationFile file = parsed.GetValue(Store) is { } path ? new(path) : CalibrationFile.Beside(parsed.GetValue(Logbook) ?? Logbooks.DefaultPath);
        ReadingTaker taker = new(PluginCatalog.Load(parsed.GetValue(Plugins) ?? PluginCatalog.DefaultFolder), parsed.GetValue(RigFile), parsed.GetValue(ArticleFile));
        string channel = parsed.GetValue(Channel)!;
        return parsed.GetValue(Tare) ? TakeTare(parsed, file, taker, channel) : Fit(parsed, file, taker, channel);
    }

    private static int TakeTare(ParseResult parsed, CalibrationFile file, ReadingTaker taker, string channel)
    {
        (double mean, double uncertainty, string unit) = taker.Take(channel);
        Calibration before = file.Of(taker.Rig).GetValueOrDefault(channel) ?? new Calibration
        {
            Channel = channel, Unit = unit, Kind = CalibrationKind.Gain, Coefficients = [0, 1, 0], Covariance = new double[9], Common = 0, Lowest = mean, Highest = mean,
            At = DateTimeOffset.UtcNow, Rig = taker.Rig, Reference = "none: only tared",
        };
        Calibration tared = before with { Tare = mean, TareUncertainty = uncertainty, TareAt = DateTimeOffset.UtcNow };
        file.Add(tared);
        CalibrationText.Show(tared, [], parsed.GetValue(Json), string.Create(CultureInfo.InvariantCulture, $"tare of {channel}: {mean:G6} ± {uncertainty:G2} {unit}, kept in {file.Path}"));
        return ExitCode.Done;
    }

    private static int Fit(ParseResult parsed, CalibrationFile file, ReadingTaker taker, string channel)
    {
        (IReadOnlyList<CalibrationPoint> points, string unit) = parsed.GetValue(Point) is { Length: > 0 } given
            ? (Given(given, parsed.GetValue(PointUncertainty)), UnitOf(parsed, taker, channel))
            : PointQuestions.Ask(taker, channel, parsed.GetValue(PointUncertainty));
        try
        {
            CalibrationFit fit = CalibrationFit.Of(channel, unit, parsed.GetValue(Kind), points, parsed.GetValue(ReferenceUncertainty), DateTimeOffset.UtcNow);
            Calibration kept = fit.Calibration with
            {
                Rig = taker.Rig, Reference = parsed.GetValue(Reference)!, Conditions = parsed.GetValue(Conditions)!,
                ValidUntil = parsed.GetValue(ValidDays) is { } days ? fit.Calibration.At.AddDays(days) : null,
            };
            string drawn = parsed.GetValue(Plot) is { } picture ? $"; {FitFiles.Draw(CalibrationPicture.Of(fit, points), picture, FitFiles.EndingOf(picture))} written" : "";
            file.Add(kept);
            CalibrationText.Show(kept, [.. points.Zip(fit.Residuals)], parsed.GetValue(Json), $"kept in {file.Path}{drawn}");
            return ExitCode.Done;
        }
        catch (FitFailedException e)
        {
            throw new CliException(ExitCode.BadInput, $"no calibration: {e.Message}");
        }
    }

    private static string UnitOf(ParseResult parsed, ReadingTaker taker, string channel)
    {
        if (parsed.GetValue(Unit) is not { } unit)
            return taker.Take(channel).Unit;
        string canonical = Units.Canonical(unit) ?? throw new CliException(ExitCode.BadInput, $"--unit {unit} is not a known unit");
        return canonical == unit ? unit : throw new CliException(ExitCode.BadInput, $"channels of this kind are in {canonical}; write the points and --unit in it");
    }

    private static CalibrationPoint[] Given(string[] points, double uncertainty) => [.. points.Select(text =>
    {
        string[] parts = text.Split('=');
        return parts.Length == 2 && Number(parts[0]) is { } reading && Number(parts[1]) is { } reference
            ? new CalibrationPoint(reading, uncertainty, reference, 0)
            : throw new CliException(ExitCode.BadInput, $"--point {text} is no point; write READING=REFERENCE, such as 12.31=12.00");
    })];

    private static double? Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value) ? value : null;
}
