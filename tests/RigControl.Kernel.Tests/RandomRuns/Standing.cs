namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>Standstill, found by looking back over the moments instead of by following them.</summary>
internal static class Standing
{
    private const double Rounding = 1e-9;

    public static bool At(RandomRig rig, IReadOnlyList<Moment> run, int place)
    {
        int energised = LastBefore(run, place, m => m.Outputs.Power || m.Outputs.Drives);
        if (run[place].Speed is not null && !IsSlow(rig, run[place]))
            return false;
        if (IsLookedAt(run, energised, place))
            return true;
        if (!rig.Has(ChannelNames.RotorSpeed))
            return rig.Article.Rotor is null && HasRunDown(rig, run, energised, place);
        return IsSlowForLong(rig, run, place)
            && (IsFollowed(rig, run, place) || (rig.Article.Rotor is null && HasRunDown(rig, run, energised, place)));
    }

    private static bool IsLookedAt(IReadOnlyList<Moment> run, int energised, int place) =>
        LastBefore(run, place, m => m.Accepted(CommandKind.Look)) > energised;

    private static bool HasRunDown(RandomRig rig, IReadOnlyList<Moment> run, int energised, int place) =>
        run[place].Seen - run[Math.Max(energised, 0)].Seen >= rig.Article.LongestCoastDown.TotalSeconds - Rounding;

    private static bool IsSlowForLong(RandomRig rig, IReadOnlyList<Moment> run, int place)
    {
        int before = LastBefore(run, place + 1, m => !IsSlow(rig, m));
        return before < place && run[place].Seen - run[before + 1].Seen >= rig.Rig.StandstillTime.TotalSeconds - Rounding;
    }

    // Seen to turn when it was driven last and to come down slowly; or proven to stand in between, so that nothing had to be followed.
    private static bool IsFollowed(RandomRig rig, IReadOnlyList<Moment> run, int place)
    {
        int driven = LastBefore(run, place, m => m.Outputs.Power && m.Outputs.Drives);
        if (driven < 0 || Enumerable.Range(driven + 1, place - driven - 1).Any(i => IsLookedAt(run, driven, i) || (rig.Article.Rotor is null && HasRunDown(rig, run, driven, i))))
            return true;
        if (driven + 1 > place || run[driven + 1].Speed is null || IsSlow(rig, run[driven + 1]))
            return false;
        Moment last = run[LastBefore(run, place, m => m.Speed is not null && !IsSlow(rig, m))];
        return Math.Min(Math.Abs(last.Speed!.Value.Lowest), Math.Abs(last.Speed.Value.Highest)) <= Standstill.MostAboveLimit * rig.Rig.StandstillSpeed;
    }

    private static bool IsSlow(RandomRig rig, Moment moment) =>
        moment.Speed is { } speed && speed.Highest < rig.Rig.StandstillSpeed && speed.Lowest > -rig.Rig.StandstillSpeed;

    private static int LastBefore(IReadOnlyList<Moment> run, int place, Func<Moment, bool> isSo)
    {
        int at = place - 1;
        while (at >= 0 && !isSo(run[at]))
            at--;
        return at;
    }
}
