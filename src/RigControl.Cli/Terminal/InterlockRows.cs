using System.Globalization;
using RigControl.Cli.Asking;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Cli.Terminal;

/// <summary>The interlocks, those that object first and with their whole reason, then the tightest first, a row each.</summary>
internal sealed class InterlockRows(AssembledRig rig)
{
    private const int BarCells = 8;
    // Columns for a name: the longest of ours, and room for the reading beside it on 80 columns.
    private const int LongestName = 24;

    private readonly Narrator _narrator = new(rig);

    /// <param name="most">Rows there are; what does not fit is counted.</param>
    public IReadOnlyList<Line> Of(in ScanRecord record, int width, int most)
    {
        List<Line> lines = [];
        int shown = 0;
        foreach ((int place, Demand demand) in Tightest(record))
        {
            Line[] rows = [.. Rows(place, demand, width)];
            bool last = shown == record.InterlockCount - 1;
            if (lines.Count + rows.Length > (last ? most : most - 1))
                break;
            lines.AddRange(rows);
            shown++;
        }

        if (shown < record.InterlockCount)
            lines.Add(new Line($"and {record.InterlockCount - shown} more, none of them tighter"));
        return lines;
    }

    private static IEnumerable<(int Place, Demand Demand)> Tightest(ScanRecord record) => Enumerable.Range(0, record.InterlockCount)
        .Select(i => (Place: i, Demand: record.Demands[i]))
        .OrderBy(d => d.Demand.Action).ThenBy(d => d.Demand.Margin).ThenBy(d => d.Place);

    private IEnumerable<Line> Rows(int place, Demand demand, int width)
    {
        string id = rig.Configuration.InterlockAt(place).Id;
        string name = Line.Fit(id, LongestName).PadRight(Math.Min(LongestName, Longest()));
        string said = _narrator.Explain(place, demand);
        string head = $"{name} ";
        if (demand.Action == DemandAction.Proceed)
            return [new Line(Line.Fit($"{head}{Bar(demand.Margin)}  {said}", width))];
        string mark = "OBJECTS".PadRight(BarCells + 6);
        int indent = head.Length + mark.Length + 1;
        return Lines.Wrap(said, Math.Max(20, width - indent))
            .Select((part, i) => new Line(i == 0 ? $"{head}{mark} {part}" : new string(' ', indent) + part, Line.Bad));
    }

    private int Longest()
    {
        int longest = 0;
        for (int i = 0; i < rig.Configuration.InterlockCount; i++)
            longest = Math.Max(longest, rig.Configuration.InterlockAt(i).Id.Length);
        return longest;
    }

    private static string Bar(double margin)
    {
        double share = Math.Clamp(margin, 0, 1);
        // Rounded down: a full bar is a full margin.
        int full = (int)(share * BarCells);
        return $"{new string('#', full)}{new string('.', BarCells - full)} {(share * 100).ToString("0", CultureInfo.InvariantCulture),3} %";
    }
}
