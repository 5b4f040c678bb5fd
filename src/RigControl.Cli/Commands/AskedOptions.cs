using System.CommandLine;
using RigControl.Analysis.Figures;
using RigControl.Cli.Loading;
using RigControl.Documents.Procedures;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary>What the figures of a trace are asked at: an option for each key that a procedure has under `figures-at`, with the same ranges.</summary>
internal sealed class AskedOptions
{
    private static readonly (string Key, string Unit, string Of)[] All =
    [
        (FiguresAt.After, "SECONDS", "Time after the stop output for speed-after and energy-after"),
        (FiguresAt.ToSpeed, "RPM", "Speed for time-to-speed"),
        (FiguresAt.SettledWithin, "PERCENT", "How close to the steady speed counts as settled for settling-time; 2 % by default"),
        (FiguresAt.Match, "SECONDS", "Length of a match for match-share, with --duty"),
        (FiguresAt.Duty, "PERCENT", "Share of a match with the output on, with --match"),
        (FiguresAt.Ambient, "DEGC", "Surroundings for time-to-limit and continuous-current instead of the trace's own"),
    ];

    private readonly Dictionary<string, Option<double?>> _options = All.ToDictionary(
        a => a.Key, a => new Option<double?>($"--{a.Key}") { Description = $"{a.Of}, {FiguresAt.Range(a.Key)}.", HelpName = a.Unit });

    public void AddTo(Command command)
    {
        foreach (Option<double?> option in _options.Values)
            command.Add(option);
    }

    /// <exception cref="CliException">A value is out of its range, or a match has no duty or the other way round.</exception>
    public AskedAt Read(ParseResult parsed)
    {
        Dictionary<string, double> stated = [];
        foreach ((string key, Option<double?> option) in _options)
        {
            if (parsed.GetValue(option) is not { } value)
                continue;
            if (!FiguresAt.Takes(key, value))
                throw new CliException(ExitCode.BadInput, FormattableString.Invariant($"--{key} {value} is out of range; write a value {FiguresAt.Range(key)}"));
            stated[key] = value;
        }

        return FiguresAt.Missing(stated) is { } missing
            ? throw new CliException(ExitCode.BadInput, $"--{FiguresAt.Match} and --{FiguresAt.Duty} go together; write --{missing} and a value {FiguresAt.Range(missing)}")
            : AskedFor.Of(stated);
    }
}
