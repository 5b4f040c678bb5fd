using RigControl.Documents.Procedures;
using RigControl.Documents.Tests.Support;
using RigControl.Documents.Text;
using RigControl.Model.Procedures;

namespace RigControl.Documents.Tests.Procedures;

/// <summary>Whatever the order of the steps: what is accepted is safe, and what is safe is accepted.</summary>
public class StepOrderTests
{
    private static readonly StepKind[] Kinds = Enum.GetValues<StepKind>();

    [Fact]
    public void An_order_is_accepted_exactly_when_it_is_safe()
    {
        foreach (StepKind[] steps in Orders(6))
            Assert.True(IsSafe(steps) == IsAccepted(steps), string.Join(' ', steps));
    }

    [Fact]
    public void A_step_of_unknown_kind_silences_what_follows()
    {
        var problems = new ProblemList("f");
        var order = new StepOrder(problems);
        order.Next(null, Place.Start);
        order.Next(StepKind.Hold, Place.Start);
        order.Next(StepKind.CoastDown, Place.Start);
        order.End();
        Assert.True(problems.IsEmpty);
    }

    // The rule in other words, as one pattern: rests anywhere between cycles; a cycle arms, then rises and may rise or hold, or opens
    // the gate, before it runs down.
    private static bool IsSafe(StepKind[] steps) =>
        System.Text.RegularExpressions.Regex.IsMatch(string.Concat(steps.Select(Letter)), "^(R|AS[SH]*C|AGC)*$");

    private static char Letter(StepKind kind) => kind is StepKind.Observe or StepKind.Ask or StepKind.Trial ? 'R' : kind.ToString()[0];

    private static bool IsAccepted(StepKind[] steps)
    {
        var problems = new ProblemList("f");
        var order = new StepOrder(problems);
        foreach (StepKind kind in steps)
            order.Next(kind, Place.Start);
        order.End();
        return problems.IsEmpty;
    }

    private static IEnumerable<StepKind[]> Orders(int longest)
    {
        IEnumerable<StepKind[]> orders = [[]];
        for (int length = 1; length <= longest; length++)
        {
            orders = [.. orders.SelectMany(o => Kinds, (order, kind) => (StepKind[])[.. order, kind])];
            foreach (StepKind[] order in orders)
                yield return order;
        }
    }
}
