using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>
/// Whether the numbers of rig and article mean anything. One that is not a number would pass every comparison of the scan
/// on its safe or on its unsafe side, as chance has it.
/// </summary>
internal static class RigCheck
{
    public static void Check(RigDefinition rig, List<string> reasons)
    {
        if (rig.ScanPeriod < TimeSpan.FromMilliseconds(1) || rig.ScanPeriod > TimeSpan.FromMilliseconds(100))
            reasons.Add($"the scan period is {rig.ScanPeriod.TotalMilliseconds} ms; it must lie between 1 ms and 100 ms");
        if (!IsAboveZero(rig.StandstillSpeed))
            reasons.Add($"the standstill speed is {rig.StandstillSpeed} rpm; give the speed below which the rotor counts as standing");
        if (rig.StandstillTime <= TimeSpan.Zero)
            reasons.Add("the standstill time is not above zero; give the time for which the rotor must stand");
    }

    public static void Check(Article article, List<string> reasons)
    {
        if (article.StoppingTime < TimeSpan.Zero || article.StoppingTime > TimeSpan.FromSeconds(10))
            reasons.Add($"the stopping time is {article.StoppingTime.TotalSeconds} s; it must lie between 0 s and 10 s");
        if (article.LongestCoastDown <= TimeSpan.Zero)
            reasons.Add("the longest coast-down is not above zero; give the longest time that the rotor may take to stand still");
        if (!IsAboveZero(article.MaximumRise))
            reasons.Add($"the fastest rise is {article.MaximumRise} per second; give a share per second above zero");
        Check(article.Controller, "controller", reasons);
        if (article.SecondController is { } second)
            Check(second, "second controller", reasons);
    }

    public static void Check(IReadOnlyList<Channel> channels, IReadOnlyList<BoundInterlock> interlocks, List<string> reasons)
    {
        for (int i = 0; i < channels.Count; i++)
        {
            if (channels[i].Index != i)
                reasons.Add($"the channel {channels[i].Name} is at place {i} but says {channels[i].Index}");
        }

        Unique(channels.Select(c => c.Name), "channels", reasons);
        Unique(interlocks.Select(i => i.Id), "interlocks", reasons);
    }

    private static void Check(ControllerProfile controller, string what, List<string> reasons)
    {
        foreach (double pulse in (double[])[controller.StopPulse, controller.MinimumPulse, controller.MaximumPulse])
        {
            if (pulse is not (>= 500 and <= 2500))
                reasons.Add($"the {what} has a pulse of {pulse} us; pulses lie between 500 us and 2500 us");
        }

        if (!(controller.MinimumPulse < controller.MaximumPulse))
            reasons.Add($"the {what}'s shortest pulse is not shorter than its longest");
        if (!(controller.StopPulse >= controller.MinimumPulse && controller.StopPulse <= controller.MaximumPulse))
            reasons.Add($"the {what}'s stop pulse does not lie between its shortest and its longest");
        if (controller.ArmingTime < TimeSpan.Zero)
            reasons.Add($"the {what}'s arming time is below zero");
    }

    private static void Unique(IEnumerable<string> names, string what, List<string> reasons)
    {
        foreach (IGrouping<string, string> twice in names.GroupBy(n => n).Where(g => g.Count() > 1))
            reasons.Add($"{twice.Count()} {what} are called {twice.Key}; each needs a name of its own");
    }

    private static bool IsAboveZero(double value) => double.IsFinite(value) && value > 0;
}
