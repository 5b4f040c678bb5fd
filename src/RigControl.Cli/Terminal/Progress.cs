using System.Globalization;
using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Scanning;

namespace RigControl.Cli.Terminal;

/// <summary>Where the procedure stands: repeat, step, time in it, and the most that step and procedure may still take.</summary>
internal sealed class Progress(Configuration configuration)
{
    private const int BarCells = 10;

    // From here on minutes say more than seconds.
    private const double LongInSeconds = 600;

    private (int Step, int Repeat, RigState State, ArmingPhase Phase) _last = (-1, -1, default, default);
    private TimeSpan _since;

    public IEnumerable<string> Of(in ScanRecord record)
    {
        var place = (record.Step, record.Repeat, record.State, record.Phase);
        if (place != _last)
            (_last, _since) = (place, record.Now);
        CompiledStep step = configuration.StepAt(record.Step);
        string repeat = record.Repeat == 0 ? "not begun" : $"repeat {record.Repeat} of {configuration.Repeats}";
        string head = $"{repeat}   step {record.Step + 1} of {configuration.StepCount}: {Words.Of(step.Kind)}";
        return Runs(record) ? [$"{head}   {InStep(record, step)}", $"{MostLeft(record, step)} at most until all is done"] : [head];
    }

    // In safe-stop nothing advances, and before the operator's arm nothing has a time.
    private bool Runs(in ScanRecord record) => record is { State: not RigState.SafeStop, Finished: false, Repeat: > 0 }
        && !(record.State == RigState.Idle && configuration.StepAt(record.Step).Kind == StepKind.Arm);

    private string InStep(in ScanRecord record, CompiledStep step)
    {
        double gone = (record.Now - _since).TotalSeconds;
        double limit = Limit(record, step).TotalSeconds;
        string atMost = record.Phase == ArmingPhase.Warning || (step.For is not null && step.Until.Length == 0) ? "" : "at most ";
        int full = (int)Math.Clamp(gone / limit * BarCells, 0, BarCells);
        string bar = new string('#', full) + new string('.', BarCells - full);
        double left = Math.Max(0, limit - gone);
        return limit < LongInSeconds
            ? string.Create(CultureInfo.InvariantCulture, $"{bar} {gone:0.0} of {atMost}{limit:0.#} s, {left:0} s left")
            : $"{bar} {Clock(TimeSpan.FromSeconds(left))} of {atMost}{Clock(TimeSpan.FromSeconds(limit))} left";
    }

    private string MostLeft(in ScanRecord record, CompiledStep step)
    {
        TimeSpan left = Limit(record, step) - (record.Now - _since);
        if (record.Phase is ArmingPhase.Preparing)
            left += record.Repeat > 1 ? TimeSpan.Zero : Configuration.StartDeadline;
        if (record.Phase is ArmingPhase.Preparing or ArmingPhase.AwaitingStart)
            left += Configuration.WarningTime;
        for (int i = record.Step + 1; i < configuration.StepCount; i++)
            left += Longest(i);
        left += (configuration.Repeats - record.Repeat) * OfOneRepeat();
        return Clock(left);
    }

    private TimeSpan OfOneRepeat()
    {
        TimeSpan sum = TimeSpan.Zero;
        for (int i = 0; i < configuration.StepCount; i++)
            sum += Longest(i);
        return sum;
    }

    // A step with a warning before it: after the arm, and wherever the level goes up.
    private TimeSpan Longest(int place)
    {
        CompiledStep step = configuration.StepAt(place);
        bool warned = step.Kind is StepKind.Arm or StepKind.SpinUp or StepKind.Gate;
        return (step.For ?? step.Timeout) + (warned ? Configuration.WarningTime : TimeSpan.Zero);
    }

    private static string Clock(TimeSpan time) => time < TimeSpan.FromSeconds(1) ? "0:00 min"
        : time < TimeSpan.FromHours(1) ? time.ToString(@"m\:ss", CultureInfo.InvariantCulture) + " min"
        : ((int)time.TotalHours).ToString(CultureInfo.InvariantCulture) + time.ToString(@"\:mm\:ss", CultureInfo.InvariantCulture) + " h";

    private static TimeSpan Limit(in ScanRecord record, CompiledStep step) => record.Phase switch
    {
        ArmingPhase.Warning => Configuration.WarningTime,
        ArmingPhase.AwaitingStart => Configuration.StartDeadline,
        _ => step.For ?? step.Timeout,
    };
}
