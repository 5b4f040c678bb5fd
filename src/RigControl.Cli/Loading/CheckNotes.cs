using RigControl.Analysis.Figures;
using RigControl.Analysis.Guarding;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Loading;

/// <summary>What files in order still cannot give together, whether the lid must be locked, and where an article could pass a limit of the rules. Notes, not problems.</summary>
internal static class CheckNotes
{
    // The host writes these itself.
    private static readonly string[] OfTheHost = [ChannelNames.FailsafeConfirmed, ChannelNames.RecorderBacklog, ChannelNames.ScanLateness];

    public static IEnumerable<string> Of(CheckedFiles files, PluginCatalog catalog)
    {
        foreach (RigDefinition? rig in files.Rigs.DefaultIfEmpty(null!))
        {
            IReadOnlyList<string>? channels = rig is null ? null : RigForecast.Channels(rig, catalog);
            if (rig is not null && channels is null)
                yield return $"{rig.Name}: what its devices supply shows only once they are open; rigcontrol signals lists it";
            if (rig is not null && RigForecast.LeavesKeyAlone(rig, catalog))
                yield return $"{rig.Name}: {RigForecast.KeyLeftAlone}; run will refuse it";
            if (rig is not null && RigForecast.StopLeftAlone(rig, catalog) is { } alone)
                yield return $"{rig.Name}: {alone}; run will refuse it";
            foreach (Article? article in files.Articles.DefaultIfEmpty(null!))
            {
                if (rig is not null && article is not null && GuardVerdict.Of(rig, article) is { } verdict)
                    yield return verdict.Sentence;
                foreach (string note in OfPair(files, rig, article, channels))
                    yield return note;
            }
        }

        foreach (string note in files.Rules.SelectMany(r => files.Articles.SelectMany(a => OfRules(r, a))))
            yield return note;
    }

    private static IEnumerable<string> OfPair(CheckedFiles files, RigDefinition? rig, Article? article, IReadOnlyList<string>? channels)
    {
        string with = string.Join(" with ", new[] { rig?.Name, article?.Name }.OfType<string>());
        if (files.Procedures.Count == 0 && rig is not null)
            return FigureCatalog.Names.SelectMany(f => Lacking(with, f, FigureLacks.Of(f, null, article, channels, rig)));
        return files.Procedures.Select(p => p.Value!).Zip(files.Asked).SelectMany(pair =>
        {
            (Procedure p, AskedAt asked) = pair;
            string who = with.Length > 0 ? $"{p.Name} on {with}" : p.Name;
            return p.Figures.SelectMany(f => Lacking(who, f, FigureLacks.Of(f, p, article, channels, rig, asked))).Concat(Unsupplied(who, p, channels));
        });
    }

    private static IEnumerable<string> Lacking(string who, string figure, IReadOnlyList<string> lacks) =>
        lacks.Count == 0 ? [] : [$"{who}: no {figure}: {string.Join("; ", lacks)}"];

    private static IEnumerable<string> Unsupplied(string who, Procedure procedure, IReadOnlyList<string>? channels) => channels is null ? [] : procedure.Steps
        .SelectMany((s, i) => s.Until.Select(c => (Step: i + 1, c.Channel)))
        .Where(w => !channels.Contains(w.Channel) && !OfTheHost.Contains(w.Channel) && !w.Channel.StartsWith("device.", StringComparison.Ordinal))
        .Select(w => $"{who}: step {w.Step} waits for {w.Channel}, which the rig does not supply; run will refuse it");

    private static IEnumerable<string> OfRules(EventRules rules, Article article)
    {
        if (rules.Find(RuleKind.TipSpeed) is { } tip && article.Rotor is { } rotor && rotor.MaximumSpeed * Math.PI / 30 * rotor.TipRadius is var speed && speed > tip.Value)
            yield return Beyond(article, FormattableString.Invariant($"its maximum speed gives {speed:0.#} m/s at the tip, above {tip.Value:0.#} m/s"), tip);
        if (rules.Find(RuleKind.StoppingTime) is { } stop && article.LongestCoastDown.TotalSeconds > stop.Value)
            yield return Beyond(article, FormattableString.Invariant($"its longest coast-down is {article.LongestCoastDown.TotalSeconds:0.#} s, above {stop.Value:0.#} s"), stop);
        if (rules.Find(RuleKind.ClassMass) is { } mass && article.Rotor?.Mass > mass.Value)
            yield return Beyond(article, FormattableString.Invariant($"its rotor alone has {article.Rotor.Mass:0.###} kg, above {mass.Value:0.###} kg"), mass);
    }

    private static string Beyond(Article article, string what, RuleLimit limit) =>
        FormattableString.Invariant($"{article.Name}: {what} ({limit.Source}, {limit.Date:yyyy-MM-dd})");
}
