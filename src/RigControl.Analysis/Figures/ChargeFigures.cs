using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Figures;

/// <summary>How full a pack is, from its rested voltage.</summary>
internal static class ChargeFigures
{
    /// <summary>
    /// Standard uncertainty of the chart, V a cell: charts agree to about 0.05 V to either side, any difference as likely
    /// (common practice, no source; JCGM 100:2008, 4.3.7, from memory).
    /// </summary>
    private const double Chart = 0.05 / 1.732;

    // A cell at rest outside of these is another kind, or there are more or fewer of them than declared.
    private const double Lowest = 3.25, Highest = 4.25;

    /// <summary>% at the beginning of the repeat. The chart is nearly flat in the middle, so that the interval is wide there, and lopsided at its ends.</summary>
    public static Measured AtRest(FigureContext context)
    {
        Model.Rig.Pack pack = context.Article?.Pack ?? throw new NoFigureException("the article declares no pack");
        if (pack.Chemistry != "LiPo")
            throw new NoFigureException($"a chart of the rested voltage is known here for LiPo cells only, not for {pack.Chemistry}");
        Measured rested = context.Pack.Rested.Times(1.0 / pack.Cells);
        if (rested.Value is < Lowest or > Highest)
            throw new NoFigureException(FormattableString.Invariant($"{rested.Value:0.00} V a cell is no rested LiPo cell: check the declared cells"));
        double known = Measured.Combine(rested.Uncertainty, Chart), reach = Coverage.Factor95(double.PositiveInfinity) * known;
        (double low, double high) = (100 * Charge(rested.Value - reach), 100 * Charge(rested.Value + reach));
        // Of a volt: what each part of the voltage is worth in charge.
        double perVolt = (high - low) / (2 * reach);
        return Measured.Of(100 * Charge(rested.Value), new Input("chart of the rested voltage", 0, perVolt * Chart), new Input("rested voltage", 0, perVolt * rested.Uncertainty, rested.Freedom))
            with { Asymmetric = (low, high), Note = FormattableString.Invariant($"{rested.Value:0.00} V a cell, as if rested; by a chart of LiPo cells (common practice, no source)") };
    }

    // 0 to 1; the chart rises all the way.
    private static double Charge(double volts)
    {
        (double low, double high) = (0, 1);
        for (int i = 0; i < 50; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Physics.Pack.CellVoltage(middle) < volts ? (middle, high) : (low, middle);
        }

        return 0.5 * (low + high);
    }
}
