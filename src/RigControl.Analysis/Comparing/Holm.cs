namespace RigControl.Analysis.Comparing;

/// <summary>
/// Correction for looking at many figures at once: S. Holm, Scandinavian Journal of Statistics 6 (1979) 65, from memory. With
/// it the chance that any figure is called changed where none is stays at the level asked for.
/// </summary>
public static class Holm
{
    /// <summary>Adjusted probabilities in the order given; one that is not a number stays so and counts for nothing.</summary>
    public static double[] Adjust(IReadOnlyList<double> chances)
    {
        double[] adjusted = [.. chances];
        int[] order = [.. Enumerable.Range(0, chances.Count).Where(i => !double.IsNaN(chances[i])).OrderBy(i => chances[i])];
        double highest = 0;
        for (int rank = 0; rank < order.Length; rank++)
        {
            highest = Math.Max(highest, Math.Min(1, (order.Length - rank) * chances[order[rank]]));
            adjusted[order[rank]] = highest;
        }

        return adjusted;
    }
}
