using RigControl.Analysis.Power;

namespace RigControl.Analysis.Figures;

/// <summary>How much of the pack a match takes.</summary>
internal static class MatchFigures
{
    /// <summary>% of the declared capacity, for the stated length and share of the time with the output on.</summary>
    public static Measured Share(FigureContext context)
    {
        if (context.Asked is not { Match: { } length, Duty: { } duty })
            throw new NoFigureException("no length and duty of a match are stated");
        double capacity = context.Article?.Pack?.Capacity ?? throw new NoFigureException("the article declares no pack");
        (Measured share, double margin) = PackFit.Match(PowerFigures.MeanCurrent(context), length, duty, context.Input.Declared("capacity", capacity));
        if (!(share.Value > 0))
            throw new NoFigureException("no charge was drawn");
        return share.Times(100) with { Note = Sentence(share, margin, length, duty) };
    }

    // What a share means is whether the pack lasts, and how surely.
    private static string Sentence(Measured share, double margin, double length, double duty)
    {
        string match = FormattableString.Invariant($"a match of {length:0.#} s with the output on for {100 * duty:0.#} % of it");
        (double low, double high) = share.Interval95;
        if (low > 1)
            return FormattableString.Invariant($"the pack does not last {match}: it is empty after {length / share.Value:0} s");
        string left = FormattableString.Invariant($"{100 * (1 - share.Value):0} % are left");
        return high < 1
            ? FormattableString.Invariant($"the pack lasts {match}: {left}, a margin of {margin:0.#} standard uncertainties")
            : FormattableString.Invariant($"too close to call whether the pack lasts {match}: {left}, a margin of {margin:0.#} standard uncertainties");
    }
}
