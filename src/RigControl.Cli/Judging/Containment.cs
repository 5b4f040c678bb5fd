using RigControl.Analysis.Guarding;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Rehearsal.Runaway;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Cli.Judging;

/// <summary>Whether a rotor may be run on a real rig inside what its builder declares around it.</summary>
internal static class Containment
{
    /// <summary>What stands against it; null for nothing. Nothing declared is no objection: it is said by <c>check</c> and <c>rehearse</c>.</summary>
    /// <param name="documents">Of the run.</param>
    /// <param name="cut">The over-speed cut that a proof has seen; null for none.</param>
    /// <param name="book">Whose real runs may have shown a longer coast-down than the article declares.</param>
    public static Objection? ObjectionTo(RigDocuments documents, OverSpeedCut? cut, LogbookFile book)
    {
        if (EnclosureVerdict.Of(documents.Rig, documents.Article, cut) is { IsRefused: true } enclosure)
            return new("enclosure-rating", cut is null ? $"{enclosure.Sentence}; or verify with the rotor removed that the over-speed cut acts before that: rigcontrol failsafe --rotor-removed" : enclosure.Sentence);
        return documents.Rig.Guard is not null && GuardVerdict.Of(documents.Rig, documents.Article, Longest(documents.Article, book)) is { IsRefused: true } guard
            ? new("guard", guard.Sentence)
            : null;
    }

    /// <summary>The longest stopping time that is known of an article: declared, or from a real run's coast-down at the upper end of its interval.</summary>
    public static StoppingTime Longest(Article article, LogbookFile book)
    {
        StoppingTime longest = new(article.LongestCoastDown.TotalSeconds);
        foreach (string run in book.FigureOverTime("coast-down-time", article.Name).Where(p => !p.Simulated).Select(p => p.Run))
        {
            foreach (Figure figure in book.Figures(run).Where(f => f is { Name: "coast-down-time", Unit: "s", Value: not null }))
            {
                double upper = figure.Interval95?.High ?? figure.Value!.Value;
                if (!(longest.Measured >= upper))
                    longest = longest with { Measured = upper, Run = run };
            }
        }

        return longest;
    }
}
