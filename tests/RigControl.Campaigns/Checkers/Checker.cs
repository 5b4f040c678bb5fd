using System.Globalization;

namespace RigControl.Campaigns.Checkers;

/// <summary>One promise, checked in every period by code that shares nothing with the kernel.</summary>
internal abstract class Checker
{
    /// <summary>The promise, as a sentence.</summary>
    public abstract string Promise { get; }

    /// <summary>How it was broken, or null.</summary>
    public string? Broken { get; private set; }

    public static Checker[] All() =>
    [
        new NeverDrivenTripped(), new DemandNeverRisesAfterTrip(), new OutputOnlyAfterThreeActs(), new WarningBeforeEveryRise(),
        new RestartLandsInSafeStop(), new SafeStopEndsUnpowered(), new StopIsTakenAtOnce(), new UnrecordedIsNotRun(), new AbandonedIsNotRun(),
        new SpeedStaysBounded(), new DrivenOnlyAfterStart(), new PoweredOnlyWhenAsked(), new UnlockedMeansSafe(), new SafeStopLeftOnlyByReset(),
        new OpenLidEndsDrive(), new PressedStopEndsDrive(), new LostRadioEndsDrive(), new HotMotorIsNotDriven(), new UnprovenIsNotRun(), new OnlyExploredWays(),
    ];

    public void See(in Observation seen)
    {
        if (Broken is null && !Holds(seen))
            Broken = string.Create(CultureInfo.InvariantCulture, $"{Promise}: broken at {seen.Time:0.000} s in {Where(seen)}");
    }

    /// <summary>Where the run stood when it was broken, in words.</summary>
    protected virtual string Where(in Observation seen) => seen.Record.State.ToString();

    protected abstract bool Holds(in Observation seen);
}
