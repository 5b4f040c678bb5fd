using System.Globalization;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Guarding;

/// <summary>
/// A declared guard held against the longest stopping time. Where that is as long as a person needs to get to the rotor, or longer, the
/// guard must be locked until standstill (ISO 14119:2013, clauses 4.3 and 6.2.2, the principle in own words, from memory).
/// </summary>
/// <param name="IsRefused">Whether a real rotor may not be run behind it.</param>
/// <param name="NeedsLock">Whether it must be locked until standstill; null where the question does not arise.</param>
/// <param name="Sentence">What was compared, or what is missing.</param>
public sealed record GuardVerdict(bool IsRefused, bool? NeedsLock, string Sentence)
{
    /// <summary>Null for an article without a rotor, to which nobody has to be kept from coming.</summary>
    /// <param name="rig">With its guard, or without; its lock is the interlock lid-locked, which reads the bolt.</param>
    /// <param name="article">As its file declares it.</param>
    /// <param name="stopping">The longest that is known; null for what the article declares.</param>
    public static GuardVerdict? Of(RigDefinition rig, Article article, StoppingTime? stopping = null)
    {
        if (article.Rotor is null)
            return null;
        GuardVerdict verdict = Of(rig.Guard, stopping ?? new StoppingTime(article.LongestCoastDown.TotalSeconds), rig.Interlocks.Any(i => i.Plugin == "lid-locked"));
        return verdict with { Sentence = $"{rig.Name} with {article.Name}: {verdict.Sentence}" };
    }

    /// <param name="guard">As declared; null where nobody has.</param>
    /// <param name="stopping">The longest that is known.</param>
    /// <param name="hasLock">Whether the rig reads a bolt and stops without it.</param>
    public static GuardVerdict Of(GuardDefinition? guard, StoppingTime stopping, bool hasLock) => guard switch
    {
        null => Locked(true, "nobody has declared under `guard:` what keeps people from the rotor", hasLock),
        { Kind: GuardKind.Fixed } => OfFixed(guard, stopping),
        { Kind: GuardKind.Interlocked, Release.NeedsTool: false } => new(true, null, "the lock's auxiliary release opens without a tool, so that anybody can be at the rotor before it stands; fit one that needs a tool"),
        { Kind: GuardKind.Interlocked, Release.OpensCoil: false } => new(true, null, "the lock's auxiliary release leaves the contactor's coil circuit closed, so that the rotor can be powered behind an open lid; wire its contact into the coil circuit"),
        { Kind: GuardKind.Interlocked } => OfInterlocked(guard, stopping, hasLock),
        _ => new(true, null, "a person can get into the enclosure whole, and nothing here can see that nobody is inside; such an enclosure is not for this program"),
    };

    private static GuardVerdict OfFixed(GuardDefinition guard, StoppingTime stopping)
    {
        double opening = guard.OpeningTime?.TotalSeconds ?? 0, needed = stopping.Worst * (1 + (guard.Margin ?? double.NaN));
        string compared = Text($"opening the fixed guard takes {opening:0.#} s, as declared ({guard.Source}); the rotor may need {stopping.Told} to stand, with the declared margin of {guard.Margin * 100:0} % {needed:0.#} s");
        // A margin that is not a number makes no comparison true, and refuses.
        return opening > needed
            ? new(false, false, $"{compared}: accepted on that word")
            : new(true, true, $"{compared}: not accepted; use a guard that is locked until standstill");
    }

    private static GuardVerdict OfInterlocked(GuardDefinition guard, StoppingTime stopping, bool hasLock)
    {
        (bool needed, string why) = NeedOf(guard, stopping);
        GuardVerdict verdict = Locked(needed, why, hasLock);
        return hasLock && guard.Release is null
            ? verdict with { Sentence = $"{verdict.Sentence}, of whose auxiliary release nobody has said that it needs a tool and opens the coil circuit" }
            : verdict;
    }

    private static GuardVerdict Locked(bool needed, string why, bool hasLock)
    {
        string sentence = needed ? $"the lid must be locked until standstill, since {why}" : $"the lid need not be locked: {why}";
        return (needed, hasLock) switch
        {
            (_, true) => new(false, needed, $"{sentence}; the rig has a lock"),
            (true, false) => new(false, true, $"{sentence}, and the rig has no lock: add a bolt that is read, and the interlock lid-locked"),
            _ => new(false, false, sentence),
        };
    }

    private static (bool Needed, string Why) NeedOf(GuardDefinition guard, StoppingTime stopping)
    {
        if (guard is { Distance: { } distance, Gap: { } gap })
        {
            return SeparationDistance.Of(stopping.Worst, gap) is { } least
                ? (distance < least, Text($"{stopping.Told} to standstill ask for {least * 1000:0} mm behind a gap of {gap * 1000:0} mm (ISO 13855), and there are {distance * 1000:0} mm, as declared ({guard.Source})"))
                : (true, Text($"through a gap of {gap * 1000:0} mm more than an arm reaches before the contact opens"));
        }

        return guard.OpeningTime is { } opening
            ? (opening.TotalSeconds <= stopping.Worst, Text($"a hand may be there after {opening.TotalSeconds:0.#} s, as declared ({guard.Source}), and the rotor may need {stopping.Told} to stand"))
            : (true, "nobody has declared how soon a hand can be there");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
