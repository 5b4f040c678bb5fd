namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>Standstill, found by looking back over the moments instead of by following them.</summary>
internal static class Standing
{
    private const double Rounding = 1e-9;

    public static bool At(RandomRig rig, IReadOnlyList<Moment> run, int place) =>
        rig.Has(ChannelNames.RotorSpeed) ? BySpeed(rig, run, place) : ByTime(rig, run, place);

    private static bool BySpeed(RandomRig rig, IReadOnlyList<Moment> run, int place)
    {
        int first = place;
        while (first >= 0 && IsSlow(rig, run[first]))
            first--;
        return first < place && run[place].Seen - run[first + 1].Seen >= rig.Rig.StandstillTime.TotalSeconds - Rounding;
    }

    private static bool IsSlow(RandomRig rig, Moment moment) =>
        moment.Speed is { } speed && speed.Highest < rig.Rig.StandstillSpeed && speed.Lowest > -rig.Rig.StandstillSpeed;

    private static bool ByTime(RandomRig rig, IReadOnlyList<Moment> run, int place)
    {
        int energised = place - 1;
        while (energised > 0 && !run[energised].Outputs.Power && run[energised].Outputs.Throttle == 0)
            energised--;
        return run[place].Seen - run[Math.Max(energised, 0)].Seen >= rig.Article.LongestCoastDown.TotalSeconds - Rounding;
    }
}
