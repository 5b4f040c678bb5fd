using RigControl.Campaigns.Checkers;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Campaigns;

/// <summary>Looks at every period of a run: shows it to the checkers, and notes what the run has come to.</summary>
internal sealed class Watcher(Scenario scenario)
{
    /// <summary>A hold counts as recovery only a while after the faults, so that what they leave behind shows, and after the lid was moved where that was needed, s.</summary>
    private readonly double _recoversFrom = scenario.CalmFrom + Scenario.LidVisit + 1;

    /// <summary>Above this what the receiver drives has reached its level, rad/s.</summary>
    private const double GatedLevel = 1500 * CampaignRig.RadPerSecond;

    private readonly Checker[] _checkers = Checker.All();
    private readonly List<string> _broken = [];

    public bool LeftSafeStop { get; private set; }

    public bool Held { get; private set; }

    public bool HeldAgain { get; private set; }

    public int Trips { get; private set; }

    /// <summary>Interlocks that latched in the run, one bit each.</summary>
    public uint Latched { get; private set; }

    /// <summary>Faults that were on while the motor was driven, one bit each.</summary>
    public uint CameDriven { get; private set; }

    public IReadOnlyList<string> Broken => [.. _checkers.Select(c => c.Broken).OfType<string>(), .. _broken];

    public void Break(string sentence) => _broken.Add(sentence);

    public void See(in Observation seen)
    {
        foreach (Checker checker in _checkers)
            checker.See(seen);
        ref readonly ScanRecord record = ref seen.Record;
        LeftSafeStop |= record.State != RigState.SafeStop;
        bool atLevel = record.State == RigState.Hold || (record.Outputs.Gate && seen.Truth.Speed > GatedLevel);
        Held |= atLevel;
        HeldAgain |= atLevel && seen.Time > _recoversFrom;
        Trips += record.Fired == Trigger.Trip ? 1 : 0;
        Latched |= record.NewlyLatched;
        if (seen.Truth.Driven)
            CameDriven |= On(seen.Time);
    }

    private uint On(double now)
    {
        uint on = 0;
        for (int i = 0; i < scenario.Faults.Length; i++)
            on |= scenario.Faults[i].IsOn(now) ? 1u << i : 0;
        return on;
    }
}
