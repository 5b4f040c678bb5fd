namespace RigControl.Campaigns;

/// <summary>What a scenario does to the host and to whoever sits before it.</summary>
internal sealed class HostFaults(Scenario scenario, TrueTime time)
{
    /// <summary>Longest gap that <see cref="FaultKind.ScansLate"/> makes between two scans, s.</summary>
    public const double LongestGap = 0.3;

    private readonly PlannedFault? _clockStep = scenario.AllFaults.FirstOrDefault(f => f.Kind == FaultKind.ClockStep);
    private readonly List<PlannedFault> _deaths = [.. scenario.AllFaults.Where(f => f.Kind is FaultKind.HostRestart or FaultKind.RigUnpowered)];
    private readonly PlannedFault? _late = scenario.AllFaults.FirstOrDefault(f => f.Kind == FaultKind.ScansLate);
    private double _leftAt = double.NaN;

    /// <summary>What the host's clock says: after a step, half a second less or up to two more.</summary>
    public TimeSpan Clock => TimeSpan.FromSeconds(
        time.Now + (_clockStep is { } step && time.Now >= step.From ? step.Size < 0.5 ? -0.5 : step.Size * 2 : 0));

    /// <summary>Periods without a scan after this one.</summary>
    public int PeriodsMissed => _late is { } late && late.IsOn(time.Now) ? (int)(late.Size * LongestGap / CampaignRig.Period.TotalSeconds) : 0;

    /// <summary>Whether nothing is wrong any more, so that a restart is worth the while.</summary>
    public bool AllOver => scenario.AllFaults.All(f => !f.IsOn(time.Now));

    /// <summary>When the host that was killed last starts again, s.</summary>
    public double RestartAt { get; private set; }

    /// <summary>Whether something of this kind is wrong now.</summary>
    public bool IsOn(FaultKind kind) => scenario.IsOn(kind, time.Now);

    /// <summary>Whether the host is killed now: once by each fault that does so.</summary>
    public bool KillsNow()
    {
        if (_deaths.Find(d => time.Now >= d.From) is not { } death)
            return false;
        _deaths.Remove(death);
        RestartAt = death.To;
        return true;
    }

    /// <summary>How long nobody has been at the bench, s; to be asked in every scan.</summary>
    public double AbandonedFor()
    {
        if (!IsOn(FaultKind.OperatorLeaves))
            _leftAt = double.NaN;
        else if (double.IsNaN(_leftAt))
            _leftAt = time.Now;
        return double.IsNaN(_leftAt) ? 0 : time.Now - _leftAt;
    }
}
