using System.Globalization;
using RigControl.Analysis.Rules;
using RigControl.Cli.Output;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Cli.Judging;

/// <summary>A run held against copied limits, as the command <c>rules</c> shows it.</summary>
internal static class RulesDocument
{
    public static object Of(EventRules rules, RunHeader header, IReadOnlyList<JudgedRule> judged) => new
    {
        rules = rules.Name, run = header.Run, simulated = header.Simulated,
        limits = judged.Select(j => new
        {
            limit = Name(j.Limit.Kind), value = j.Limit.Value, unit = RuleJudge.FigureOf(j.Limit.Kind).LimitUnit,
            source = j.Limit.Source, date = j.Limit.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            verdict = j.Found is { } found ? Word(found.Verdict) : null,
            figure = j.Found?.Figure.Name, method = j.Found?.Figure.Method, repeat = j.Found?.Figure.Repeat, found = j.Found?.Value,
            interval95 = j.Found?.Interval is { } i ? new[] { i.Low, i.High } : null,
            note = j.Lack ?? j.Found?.Figure.Note,
        }),
    };

    public static void Print(EventRules rules, RunHeader header, IReadOnlyList<JudgedRule> judged)
    {
        Console.WriteLine($"run {header.Run} against {rules.Name}{(header.Simulated ? " (simulated: it says nothing of a real machine)" : "")}");
        foreach (JudgedRule rule in judged)
            Console.WriteLine(Line(rule));
        if (judged.Count == 0)
            Console.WriteLine($"{rules.Name} holds no limits yet: copy them from the rules of your event, each with where it stands and of which day");
    }

    private static string Line(JudgedRule rule)
    {
        string limit = string.Create(CultureInfo.InvariantCulture, $"{Name(rule.Limit.Kind)}: limit {rule.Limit.Value:G6} {RuleJudge.FigureOf(rule.Limit.Kind).LimitUnit} ({rule.Limit.Source}, {rule.Limit.Date:yyyy-MM-dd})");
        if (rule.Found is not { } found)
            return $"{limit}: not judged, since {rule.Lack}";
        string note = found.Figure.Note is { } minded ? $"; {minded}" : "";
        return $"{limit}: {Word(found.Verdict)}: {found.Figure.Name} {FigureText.Of(found.Figure)}{Interval(rule, found)} ({found.Figure.Method}){note}";
    }

    private static string Interval(JudgedRule rule, JudgedFigure found) => found.Interval is { } i
        ? string.Create(CultureInfo.InvariantCulture, $", with 95 % between {i.Low:G4} and {i.High:G4} {RuleJudge.FigureOf(rule.Limit.Kind).LimitUnit}")
        : ", of which nobody knows how far it reaches";

    private static string Name(RuleKind kind) => kind switch
    {
        RuleKind.ClassMass => "class-mass",
        RuleKind.TipSpeed => "tip-speed",
        RuleKind.StoppingTime => "stopping-time",
        _ => "voltage",
    };

    private static string Word(RuleVerdict verdict) => verdict switch
    {
        RuleVerdict.Inside => "inside",
        RuleVerdict.Outside => "outside",
        _ => "too close to call",
    };
}
