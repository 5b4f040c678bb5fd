using RigControl.Model.Records;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Commands;

/// <summary>Every stop gets one answer, whoever was faster.</summary>
public class PendingStopsTests
{
    private readonly ManualTime _time = new();
    private readonly List<Answer> _answers = [];

    private PendingStops Pending => field ??= new PendingStops(_time, _answers.Add);

    [Fact]
    public void The_scan_may_answer_before_or_after_the_stop_stands_here()
    {
        Pending.Hear(Receipt(1));
        Pending.Add(1, Answer("early"));
        Pending.Add(2, Answer("late"));
        Assert.Equal(["early"], _answers.Select(a => a.Command.Correlation));
        Pending.Hear(Receipt(2));
        Pending.Settle();
        Assert.Equal(["early", "late"], _answers.Select(a => a.Command.Correlation));
        Assert.All(_answers, a => Assert.Null(a.Reason));
    }

    [Fact]
    public void Several_stops_that_became_one_command_get_an_answer_each()
    {
        Pending.Add(1, Answer("a"));
        Pending.Add(1, Answer("b"));
        Pending.Hear(Receipt(1));
        Pending.Settle();
        Pending.Settle();
        Assert.Equal(["a", "b"], _answers.Select(a => a.Command.Correlation).Order());
    }

    [Fact]
    public void A_stop_that_no_scan_takes_is_answered_all_the_same_and_only_once()
    {
        Pending.Add(1, Answer("a"));
        _time.Pass(PendingStops.Patience + TimeSpan.FromTicks(1));
        Pending.Settle();
        Pending.Hear(Receipt(1));
        Pending.Settle();
        Assert.Contains("no scan", Assert.Single(_answers).Reason);
    }

    [Fact]
    public void A_flood_of_stops_does_not_grow_without_bound()
    {
        for (int i = 1; i <= 3 * PendingStops.Most; i++)
            Pending.Add(i, Answer("x"));
        for (int i = 1; i <= 3 * PendingStops.Most; i++)
            Pending.Hear(Receipt(i));
        Pending.Settle();
        Assert.InRange(_answers.Count, 0, PendingStops.Most);
    }

    private static Receipt Receipt(long id) => new(id, CommandKind.Stop, CommandSource.Network, RefusalReason.None);

    private static Answer Answer(string correlation) => new(new NetworkCommand("tablet", correlation, default, ""), "stop", "t", null);
}
