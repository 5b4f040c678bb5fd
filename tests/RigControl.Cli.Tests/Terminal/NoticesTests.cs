using RigControl.Cli.Terminal;
using RigControl.Model.Records;

namespace RigControl.Cli.Tests.Terminal;

/// <summary>What an operator must not miss stays until it is dealt with.</summary>
public class NoticesTests
{
    private readonly Notices _notices = new();

    [Fact]
    public void A_cause_stays_until_the_reset_however_much_happens_after_it()
    {
        Hear(1, EventNames.Trip, "lid-closed", "the lid is open");
        for (int i = 0; i < 50; i++)
            Hear(2 + i, EventNames.DeviceNote, "board", "a note");
        Assert.Equal(["the lid is open"], _notices.Causes);
        Hear(60, EventNames.OperatorAct, "reset", "reset by the operator at the bench");
        Assert.Empty(_notices.Causes);
    }

    [Fact]
    public void Every_reason_of_the_last_refusal_shows_until_an_act_is_taken()
    {
        Hear(1, EventNames.Refusal, "arm", "an old one");
        Hear(5, EventNames.Refusal, "lid-closed", "the lid is open");
        Hear(5, EventNames.Refusal, "stop-clear", "the stop is pressed");
        Assert.Equal(["the lid is open", "the stop is pressed"], _notices.Refusals);
        Hear(6, EventNames.OperatorAct, "arm", "arm by the operator at the bench");
        Assert.Empty(_notices.Refusals);
    }

    [Fact]
    public void Only_the_last_few_events_are_kept()
    {
        for (int i = 1; i <= 1000; i++)
            Hear(i, EventNames.Trip, "x", $"cause {i}");
        Assert.Equal("cause 1", _notices.Causes[0]);
        Assert.True(_notices.Causes.Count <= 40);
        Assert.EndsWith("cause 1000", _notices.Recent[^1], StringComparison.Ordinal);
        Assert.Equal(4, _notices.Recent.Count);
    }

    private void Hear(long scan, string name, string subject, string text) =>
        _notices.Hear(new RigEvent(TimeSpan.FromSeconds(scan), scan, name, subject, text, new Dictionary<string, object>()));
}
