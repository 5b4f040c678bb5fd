using RigControl.Model.Rig;

namespace RigControl.Campaigns.Checkers;

internal sealed class WarningBeforeEveryRise : Checker
{
    private double _warned;
    private double _last = double.NaN;

    public override string Promise => "three seconds of warning stand before every rise from stop";

    protected override bool Holds(in Observation seen)
    {
        double step = double.IsNaN(_last) ? 0 : seen.Time - _last;
        _last = seen.Time;
        if (seen.Record.Outputs.Warning)
            _warned += step;
        else if (!seen.Record.Outputs.Drives)
            _warned = seen.Record.State is RigState.SpinUp ? _warned : 0;
        // One scan of grace: the first scan of the warning shows it without time having passed.
        return !seen.Record.Outputs.Drives || _warned >= 3 - 2 * CampaignRig.Period.TotalSeconds;
    }
}
