using RigControl.Model.Procedures;
using RigControl.Model.Signals;
using static RigControl.Runtime.Failsafe.VerificationParts;

namespace RigControl.Runtime.Failsafe;

/// <summary>
/// Stage 1: the power is proven off and nothing is live. Every contact is seen in both of its states. The lid's lead is unplugged here
/// only; the lid itself is opened here and once more in stage 2, and never where output power may be on.
/// </summary>
internal static class ContactStage
{
    // How long a person pulls; without a break the lid must stay shut.
    private const double PullTime = 3;

    /// <summary>The contactor is proven open before anything else.</summary>
    public static Step PowerOff => See("power-off", Below(ChannelNames.OutputPower, 0.5, 0.5), null);

    /// <summary>And again at the end: a contactor that welded under the last of the load has carried every provocation, and must not be proven.</summary>
    public static Step PowerOffAfter => PowerOff with { Written = "power-off-after" };

    public static IEnumerable<Step> Steps(VerificationParts parts)
    {
        yield return PowerOff;
        if (parts.Reads(ChannelNames.EnclosureLock))
            yield return See("bolt-under-pull", Above(ChannelNames.EnclosureLid, 0.5, PullTime), new("Pull at the locked lid for three seconds; it must not open.", HandMove.PullLid, OnWord: true));
        foreach (Step step in Lid(parts))
            yield return step;
        yield return See("stop-pressed", Below(ChannelNames.StopClear, 0.5), new("Press the stop.", HandMove.PressStop));
        yield return See("stop-released", Above(ChannelNames.StopClear, 0.5, 0.2), new("Release the stop.", HandMove.ReleaseStop));
        if (!parts.Reads(ChannelNames.RadioLink))
            yield break;
        yield return See("radio-off", Below(ChannelNames.RadioLink, 0.5), new("Switch the transmitter off.", HandMove.RadioOff));
        yield return See("radio-on", Above(ChannelNames.RadioLink, 0.5, 0.2), new("Switch the transmitter on again, its stick at stop.", HandMove.RadioOn));
    }

    private static IEnumerable<Step> Lid(VerificationParts parts)
    {
        yield return See("lid-unplugged", Below(ChannelNames.EnclosureLid, 0.5), new("Unplug the lead of the lid's first contact.", HandMove.UnplugLid));
        yield return See("lid-plugged", Above(ChannelNames.EnclosureLid, 0.5, 0.2), new("Plug the lead in again.", HandMove.PlugLid));
        yield return See("lid-opened", Below(ChannelNames.EnclosureLid, 0.5), new("Release the lock (u) where there is one, and open the lid.", HandMove.OpenLid));
        if (parts.Reads(ChannelNames.EnclosureLidOpen))
            yield return See("lid-open-contact", Above(ChannelNames.EnclosureLidOpen, 0.5, 0.2), null);
        yield return See("lid-closed", Above(ChannelNames.EnclosureLid, 0.5, 0.2), new("Close the lid and lock it (l).", HandMove.CloseLid));
        if (parts.Reads(ChannelNames.EnclosureLidOpen))
            yield return See("lid-shut-contact", Below(ChannelNames.EnclosureLidOpen, 0.5, 0.2), null);
        if (parts.Reads(ChannelNames.EnclosureLock))
            yield return See("bolt-home", Above(ChannelNames.EnclosureLock, 0.5, 0.2), null);
    }
}
