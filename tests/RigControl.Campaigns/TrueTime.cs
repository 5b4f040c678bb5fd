namespace RigControl.Campaigns;

/// <summary>What time it truly is in a run, in whole scan periods; the host's own clock may say something else.</summary>
internal sealed class TrueTime
{
    /// <summary>s since the beginning of the run.</summary>
    public double Now { get; private set; }

    private long _tick;

    public void GoOn() => Now = CampaignRig.Period.TotalSeconds * ++_tick;
}
