using System.Globalization;
using RigControl.Kernel;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Scanning;

namespace RigControl.Cli.Terminal;

/// <summary>Where the procedure stands: repeat, step, time in it and the most it may still take.</summary>
internal sealed class Progress(Configuration configuration)
{
    private (int Step, int Repeat, RigState State, ArmingPhase Phase) _last = (-1, -1, default, default);
    private TimeSpan _since;

    public string Of(in ScanRecord record)
    {
        var place = (record.Step, record.Repeat, record.State, record.Phase);
        if (place != _last)
            (_last, _since) = (place, record.Now);
        CompiledStep step = configuration.StepAt(record.Step);
        TimeSpan inStep = record.Now - _since;
        TimeSpan left = Limit(record, step) - inStep;
        string repeat = record.Repeat == 0 ? "not begun" : $"repeat {record.Repeat} of {configuration.Repeats}";
        string line = string.Create(CultureInfo.InvariantCulture, $"{repeat}   step {record.Step + 1} of {configuration.StepCount}: {Words.Of(step.Kind)}   {inStep.TotalSeconds:0.0} s");
        return left > TimeSpan.Zero && record.State is not (RigState.SafeStop or RigState.Idle)
            ? string.Create(CultureInfo.InvariantCulture, $"{line}   at most {left.TotalSeconds:0} s more")
            : line;
    }

    private static TimeSpan Limit(in ScanRecord record, CompiledStep step) => record.Phase switch
    {
        ArmingPhase.Warning => Configuration.WarningTime,
        ArmingPhase.AwaitingStart => Configuration.StartDeadline,
        _ => step.For ?? step.Timeout,
    };
}
