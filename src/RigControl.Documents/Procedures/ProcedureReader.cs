using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;
using RigControl.Model.Records;

namespace RigControl.Documents.Procedures;

/// <summary>Reads the whole of a procedure file.</summary>
internal static class ProcedureReader
{
    // More than anybody watches over; a slip of the pen is caught.
    private const int MostRepeats = 1000;

    public static Procedure? Read(Fields fields, ProblemList problems)
    {
        string? name = fields.Name("procedure");
        long? repeat = WordFields.Whole(fields.Optional("repeat"), 1, MostRepeats, problems);
        IReadOnlyList<string> requires = fields.Names("requires", Capacity.Interlocks, required: true);
        IReadOnlyList<Step> steps = Steps(fields, problems);
        IReadOnlyList<string> figures = Figures(fields, problems);
        AskedAt(fields);
        fields.Close();
        return name is null ? null : new()
        {
            Name = name,
            Repeat = (int)(repeat ?? 1),
            Requires = requires,
            Steps = steps,
            Figures = figures,
        };
    }

    /// <summary>What the figures are asked at, by key of <see cref="FiguresAt"/>; empty where nothing is stated.</summary>
    public static IReadOnlyDictionary<string, double> AskedAt(Fields fields) =>
        FiguresAtReader.Read(Fields.Of(fields.Optional("figures-at"), "`figures-at`", fields.Problems));

    private static List<Step> Steps(Fields fields, ProblemList problems)
    {
        Node? node = fields.Required("steps", "a list of steps, one to a line after `- `");
        IReadOnlyList<Node> items = WordFields.Items(node, Capacity.Steps, problems);
        if (node is ListNode && items.Count == 0)
            problems.Add(node.Place, "the procedure has no step", "write at least one, such as `- rest: { for: 5 s }`");
        var order = new StepOrder(problems);
        List<Step> steps = [];
        for (int i = 0; i < items.Count; i++)
        {
            IReadOnlyList<Step> read = StepReader.Read(items[i], steps.LastOrDefault(), problems);
            order.Next(StepReader.KindOf(items[i]), items[i].Place);
            steps.AddRange(read.Select(step => step with { Item = i }));
        }
        order.End();
        if (items.Count <= Capacity.Steps && steps.Count > Capacity.Steps)
            problems.Add(node!.Place, $"with two steps for each level of a sweep, the procedure has {steps.Count} steps", $"keep at most {Capacity.Steps}");
        return steps;
    }

    private static IReadOnlyList<string> Figures(Fields fields, ProblemList problems)
    {
        IReadOnlyList<string> figures = fields.Names("figures", FigureNames.All.Count);
        foreach (Node item in (fields.Optional("figures") as ListNode)?.Items ?? [])
        {
            if (item is TextNode { Text: var figure } && figures.Contains(figure) && !FigureNames.All.Contains(figure))
                problems.Add(item.Place, $"there is no figure `{figure}`", Words.Instead(figure, FigureNames.All));
        }
        return figures;
    }
}
