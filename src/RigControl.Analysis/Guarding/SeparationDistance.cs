namespace RigControl.Analysis.Guarding;

/// <summary>
/// How far a guard must stand from what it guards, so that what stops when the guard opens has stopped before a hand is there:
/// ISO 13855:2010, S = K T + C, clauses 5, 6.2.3, 6.3 and 9 (from memory, checked against the worked examples in
/// shared/reference/safety; a 2024 edition has replaced it). How far a hand reaches through a gap is that of a field that notices
/// something as wide as the gap; a long slot lets more through (ISO 13857), so that this can show that a distance is too short and never
/// that it is long enough for a slot. Nothing here is a rating of a guard.
/// </summary>
public static class SeparationDistance
{
    /// <summary>Widest gap of which the rule says anything, m. Through a wider one more than an arm reaches.</summary>
    public const double WidestGap = 0.070;

    // All of the rule's own numbers, in mm and s.
    private const double FastHand = 2000;
    private const double Hand = 1600;
    private const double LeastDistance = 100;
    private const double FarEnoughForHand = 500;
    private const double FingerGap = 14;
    private const double HandGap = 40;
    private const double ArmReach = 850;

    /// <summary>Least distance, m; null where the rule says nothing.</summary>
    /// <param name="stopping">Longest time from the opening to standstill, s, zero or above.</param>
    /// <param name="gap">Widest gap through which somebody can reach before the opening is noticed, m, zero or above.</param>
    public static double? Of(double stopping, double gap)
    {
        double millimetres = gap * 1000;
        if (!(stopping >= 0 && double.IsFinite(stopping)) || !(gap >= 0 && gap <= WidestGap))
            return null;
        if (millimetres > HandGap)
            return (Hand * stopping + ArmReach) / 1000;
        double reach = Math.Max(0, 8 * (millimetres - FingerGap));
        double near = FastHand * stopping + reach;
        double least = near <= FarEnoughForHand ? near : Math.Max(FarEnoughForHand, Hand * stopping + reach);
        return Math.Max(LeastDistance, least) / 1000;
    }
}
