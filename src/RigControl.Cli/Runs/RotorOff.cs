using System.Globalization;
using RigControl.Analysis.Commissioning;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Cli.Runs;

/// <summary>Reads a recorded run as one with the rotor off: its samples, when the power came on, what was marked and answered.</summary>
internal static class RotorOff
{
    /// <param name="article">As recorded with the run.</param>
    public static RotorOffRun Of(LogbookFile book, RunHeader header, Article article)
    {
        RigEvent[] events = [.. book.Events(header.Run)];
        double armed = events.FirstOrDefault(e => e is { Name: EventNames.StateEntered, Subject: nameof(RigState.Arming) })?.At.TotalSeconds ?? double.NaN;
        double[] marks = [.. events.Where(e => e is { Name: EventNames.OperatorAct, Subject: "mark" }).Select(e => e.At.TotalSeconds)];
        return new RotorOffRun(Reckoning.TraceOf(book, header, events), article, armed, marks, Answers(events));
    }

    // The last answer counts where a question came more than once.
    private static Dictionary<string, string> Answers(RigEvent[] events)
    {
        Dictionary<string, string> answers = [];
        foreach (RigEvent answered in events.Where(e => e.Name == EventNames.Answer))
        {
            bool number = answered.Data.GetValueOrDefault("unit") is string { Length: > 0 };
            answers[answered.Subject] = Convert.ToString(answered.Data[number ? "value" : "said"], CultureInfo.InvariantCulture) ?? "";
        }

        return answers;
    }
}
