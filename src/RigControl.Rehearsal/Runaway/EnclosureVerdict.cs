using System.Globalization;
using RigControl.Model.Rig;

namespace RigControl.Rehearsal.Runaway;

/// <summary>An enclosure's rating held against the runaway case. The rating is the builder's; nothing here makes one.</summary>
/// <param name="IsRefused">Whether the runaway energy exceeds the rating.</param>
/// <param name="Sentence">What was compared, or why nothing could be.</param>
public sealed record EnclosureVerdict(bool IsRefused, string Sentence)
{
    /// <summary>Null for an article without a rotor, which has nothing to contain.</summary>
    /// <param name="rig">With its rating, or without.</param>
    /// <param name="article">As its file declares it.</param>
    /// <param name="cut">The over-speed cut that was verified; null for none.</param>
    public static EnclosureVerdict? Of(RigDefinition rig, Article article, OverSpeedCut? cut)
    {
        if (article.Rotor is null)
            return null;
        if (RunawayCase.Lack(article) is { } lack)
        {
            return new(false, rig.EnclosureRating is { } known
                ? Text($"the {known:0} J that {rig.Name}'s enclosure is rated for are held against no runaway: the article {article.Name} gives {lack}")
                : $"nobody has rated {rig.Name}'s enclosure, and what a runaway would store cannot be said either: the article {article.Name} gives {lack}");
        }

        RunawayCase worst = RunawayCase.Of(article, cut);
        string runaway = Text($"a runaway stores up to {worst.Energy:0} J at {worst.Rpm:0} rpm ({Bound(worst)})");
        if (rig.EnclosureRating is not { } rating)
            return new(false, $"{runaway}, and nobody has rated {rig.Name}'s enclosure: enter its rating with its source, or keep the rotor off");
        string rated = Text($"the {rating:0} J that {rig.Name}'s enclosure is rated for{Source(rig)}");
        // What is not known to be within counts as beyond.
        return worst.Energy <= rating
            ? new(false, $"{runaway}, within {rated}")
            : new(true, $"{runaway}, more than {rated}; take fewer cells, a lower Kv or less inertia, or an enclosure that is rated for it");
    }

    private static string Bound(RunawayCase worst) => worst.Cut is { } cut
        ? Text($"full pack, full throttle, least drag, until the verified cut at {cut.Limit:0} rpm has removed the power within {cut.Reaction.TotalSeconds:0.###} s")
        : "full pack, full throttle, least drag";

    private static string Source(RigDefinition rig) => rig.EnclosureSource.Length > 0 ? $" ({rig.EnclosureSource})" : "";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
