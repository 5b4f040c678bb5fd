using RigControl.Analysis.Fitting;
using RigControl.Model.Records;

namespace RigControl.Analysis.Comparing;

/// <summary>What one side of a comparison holds of one figure: a value per run, or per repeat where there is one run.</summary>
/// <param name="Values">In the figure's unit.</param>
/// <param name="Known">Standard uncertainty of one value as its own figure says it, in the figure's unit; 0 where it says none.</param>
/// <param name="Fresh">
/// Whether that uncertainty is drawn anew with every value, as the step of a scale is. Otherwise it is mostly what calibration
/// and article data add, and common to all values of one rig.
/// </param>
public sealed record ValueGroup(IReadOnlyList<double> Values, double Known, bool Fresh)
{
    public int Count => Values.Count;

    public double Mean => Summary.Mean([.. Values]);

    /// <summary>Standard deviation of a value, never below what a fresh uncertainty adds; not a number for a single value.</summary>
    public double Scatter => Count < 2 ? double.NaN : Math.Max(Summary.Deviation([.. Values]), Fresh ? Known : 0);

    /// <summary>The values of one figure in runs of one side.</summary>
    /// <param name="runs">Per run, its figures of that name that have a value.</param>
    /// <param name="fresh">See <see cref="Fresh"/>.</param>
    public static ValueGroup Of(IReadOnlyList<IReadOnlyList<Figure>> runs, bool fresh)
    {
        IReadOnlyList<Figure>[] valued = [.. runs.Where(r => r.Count > 0)];
        double[] known = [.. valued.SelectMany(r => r).Select(f => f.StandardUncertainty ?? 0)];
        double[] values = valued.Length == 1
            ? [.. valued[0].Select(f => f.Value!.Value)]
            : [.. valued.Select(r => r.Average(f => f.Value!.Value))];
        return new ValueGroup(values, known.Length == 0 ? 0 : Math.Sqrt(known.Average(u => u * u)), fresh);
    }
}
