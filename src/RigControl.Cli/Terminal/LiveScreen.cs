using RigControl.Cli.Asking;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Terminal;

/// <summary>
/// One picture of the run, from the top: the state large, what is glanced at, progress, why it stopped or why an act was refused,
/// the keys, the interlocks with the tightest first, the channels, what happened last. A low window cuts off the bottom.
/// </summary>
internal sealed class LiveScreen(AssembledRig rig)
{
    private const int WideEnough = 150;
    // More reasons than these would push the readings off a screen of 24 lines; the rest is in the record.
    private const int MostReasons = 3;
    private const int ChannelsBeside = 70;

    private readonly Progress _progress = new(rig.Configuration);
    private readonly InterlockRows _interlocks = new(rig);
    private readonly ChannelRows _channels = new(rig);

    /// <param name="question">What is asked and may be typed; empty while nothing is.</param>
    /// <param name="size">Columns and rows of the terminal.</param>
    /// <param name="cell">What large letters are drawn with.</param>
    public IReadOnlyList<Line> Of(in ScanRecord record, in InputImage image, Notices notices, string question, (int Width, int Height) size, char cell)
    {
        int width = size.Width;
        string keys = question.Length > 0 ? question : ActKeys.Of(record, rig.Configuration);
        List<Line> lines = [.. StateBand.Of(record, width, cell), _channels.Glance(image, width)];
        lines.AddRange(_progress.Of(record).Select(p => new Line(Line.Fit(p, width))));
        // An event may be a scan ahead of the picture.
        if (record.State == RigState.SafeStop)
            lines.AddRange(Reasons("CAUSE: ", notices.Causes, width));
        lines.AddRange(Reasons("REFUSED: ", notices.Refusals, width));
        lines.AddRange(Lines.Wrap($"> {keys}", width).Select(k => new Line(k, Line.Bold)));
        lines.Add(new Line(""));
        lines.AddRange(width >= WideEnough ? Beside(record, image, size, lines.Count) : Below(record, image, size, lines.Count));
        lines.AddRange(notices.Recent.Select(e => new Line(Line.Fit(e, width))));
        return [.. lines.Take(size.Height)];
    }

    // Every reason counts, but the first is what began it; the interlocks below say all of them again.
    private static IEnumerable<Line> Reasons(string head, IReadOnlyList<string> reasons, int width)
    {
        foreach (string reason in reasons.Take(MostReasons))
        {
            foreach (string part in Lines.Wrap(reason.Contains(" refused: ", StringComparison.Ordinal) ? reason : head + reason, width))
                yield return new Line(part, Line.Bad);
        }

        if (reasons.Count > MostReasons)
            yield return new Line($"{head}and {reasons.Count - MostReasons} more reasons, below", Line.Bad);
    }

    private List<Line> Below(in ScanRecord record, in InputImage image, (int Width, int Height) size, int used)
    {
        int most = Math.Max(3, size.Height - used);
        List<Line> lines = [.. _interlocks.Of(record, size.Width, most)];
        if (most - lines.Count > 2)
            lines.AddRange([new Line(""), .. _channels.Of(image, size.Width, most - lines.Count - 1)]);
        if (most - lines.Count > 2)
            lines.Add(new Line(""));
        return lines;
    }

    private List<Line> Beside(in ScanRecord record, in InputImage image, (int Width, int Height) size, int used)
    {
        int left = size.Width - ChannelsBeside;
        int most = Math.Max(3, size.Height - used - 1);
        IReadOnlyList<Line> interlocks = _interlocks.Of(record, left - 3, most);
        IReadOnlyList<Line> channels = _channels.Of(image, ChannelsBeside, most);
        List<Line> lines = [];
        for (int i = 0; i < Math.Max(interlocks.Count, channels.Count); i++)
        {
            Line first = i < interlocks.Count ? interlocks[i] : new Line("");
            lines.Add(first with { Text = first.Text.PadRight(left), Beside = i < channels.Count ? channels[i].Text : "" });
        }

        lines.Add(new Line(""));
        return lines;
    }
}
