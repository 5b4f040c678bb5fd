using System.Globalization;
using RigControl.Analysis.Traces;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Commissioning;

/// <summary>Whether the tachometer counts what passes: its speed against a second instrument's, or against what the motor can do at most.</summary>
internal static class MarksFinding
{
    // How far two instruments of different kinds may differ and still agree. Common practice.
    private const double Agreement = 0.05;

    private const int MostMarks = 12;

    private const int MostMissed = 4;

    public static Finding Of(RotorOffRun run)
    {
        const string key = "pulses-per-revolution";
        if (LastHeld(run, ChannelNames.RotorSpeed) is not { } read || read < RotorOffRun.RestSpeed)
            return new(key, Verdict.Unknown, null, "no held speed was read");
        if (!double.TryParse(run.Answers.GetValueOrDefault(RotorOffRun.SecondSpeed), CultureInfo.InvariantCulture, out double second) || second <= 0)
            return new(key, Verdict.Unknown, null, Text($"no second instrument was read; the rig read {read:0} rpm{Possible(run, read)}"));
        double ratio = read / second;
        string seen = Text($"the rig read {read:0} rpm and the second instrument {second:0} rpm");
        for (int marks = 1; marks <= MostMarks; marks++)
        {
            if (Math.Abs(ratio / marks - 1) <= Agreement)
                return marks == 1 ? new(key, Verdict.Holds, null, seen) : new(key, Verdict.Change, Text($"{marks}"), Text($"{seen}: {marks} marks pass in a turn for each that is declared; count them by hand before you write {marks} times what the rig file says"));
            if (marks is > 1 and <= MostMissed && Math.Abs(ratio * marks - 1) <= Agreement)
                return new(key, Verdict.Wrong, null, Text($"{seen}: only one mark in {marks} is seen, or fewer pass than are declared; pickup nearer, better contrast; never write a number above that of the marks"));
        }

        return new(key, Verdict.Wrong, null, $"{seen}: they do not agree, whatever the number of marks");
    }

    // Speed constant times voltage is the most that a motor without load can reach.
    private static string Possible(RotorOffRun run, double read)
    {
        if (run.Article.Motor is not { } motor || LastHeld(run, ChannelNames.BatteryVoltage) is not { } voltage)
            return "";
        double most = motor.SpeedConstant * voltage;
        return read > most * (1 + Agreement)
            ? Text($", more than the {most:0} rpm of {motor.SpeedConstant:0} rpm/V at {voltage:0.0} V: it may see several marks a turn")
            : "";
    }

    /// <summary>Mean over the last second before the output was let go.</summary>
    private static double? LastHeld(RotorOffRun run, string channel)
    {
        if (run.Trace.Find(channel) is not { } series || run.Trace.Segments.LastOrDefault() is not { } segment || double.IsNaN(segment.HoldAt))
            return null;
        double end = segment.ReleaseAt;
        double[] values = series.Between(Math.Max(segment.HoldAt, end - 1), end).Values;
        return values.Length == 0 ? null : Math.Abs(values.Average());
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
