using System.Globalization;
using RigControl.Cli.Terminal;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Scanning;

namespace RigControl.Cli.Output;

/// <summary>What the newest run came to where it broke off: a person who starts again should know what was going on.</summary>
internal static class LastSeconds
{
    /// <summary>How far back from the last scan is told: what fits on a screen, and longer than any reaction.</summary>
    private static readonly TimeSpan Span = TimeSpan.FromSeconds(3);

    /// <summary>Says on standard error how the newest run broke off; nothing where it did not.</summary>
    public static void Tell(LogbookFile book)
    {
        if (book.Runs() is not [.., { Outcome: RunOutcome.BrokenOff } run])
            return;
        foreach (string line in Of(book, run))
            Console.Error.WriteLine(line);
    }

    private static IEnumerable<string> Of(LogbookFile book, RunSummary run)
    {
        yield return $"the run {run.Run} before this broke off: {run.Procedure} of {run.Article} on {run.Rig}, started {run.StartedAt.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)} UTC";
        if (book.LastScan(run.Run) is not { } last)
        {
            yield return "  before its first scan was recorded";
            yield break;
        }

        yield return string.Create(CultureInfo.InvariantCulture,
            $"  at {last.Now.TotalSeconds:0.000} s in {Words.Of(last.State)}, step {last.Step + 1}, repeat {last.Repeat}, throttle {last.Outputs.Throttle * 100:0.#} %, power {(last.Outputs.Power ? "on" : "off")}; its last {Span.TotalSeconds:0} s:");
        TimeSpan since = last.Now - Span;
        foreach (RigEvent happened in book.Events(run.Run).Where(e => e.At >= since))
            yield return "  " + EventLines.Of(happened);
        IReadOnlyList<Channel> channels = book.Header(run.Run).Channels;
        foreach (IGrouping<ushort, Sample> readings in book.SamplesSince(run.Run, since).GroupBy(s => s.Channel).OrderBy(g => g.Key))
            yield return Reading(channels[readings.Key], [.. readings.Select(s => s.Value)]);
    }

    private static string Reading(Channel channel, double[] values) => string.Create(CultureInfo.InvariantCulture,
        $"  {channel.Name,-24} {values[^1]:0.###}{(channel.Declaration.Unit == "1" ? "" : " " + channel.Declaration.Unit)}, from {values.Min():0.###} to {values.Max():0.###}");
}
