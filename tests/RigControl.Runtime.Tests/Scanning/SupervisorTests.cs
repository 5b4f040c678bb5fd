using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Scanning;

/// <summary>Who hangs is named, and nobody else ever is.</summary>
public sealed class SupervisorTests
{
    private readonly ScanPost _post = new();

    [Fact]
    public void Whoever_is_asked_the_same_question_for_every_look_is_named_once_the_looks_are_used_up()
    {
        using Supervisor supervisor = new(_post, _ => { });
        _post.Ask("the interlock belt");

        for (int i = 0; i < Supervisor.GlancesAllowed; i++)
            Assert.Null(supervisor.Look());

        Assert.Equal("the interlock belt", supervisor.Look());
    }

    [Fact]
    public void A_scan_that_asks_again_and_again_is_never_taken_for_one_that_hangs()
    {
        using Supervisor supervisor = new(_post, _ => { });
        for (int i = 0; i < 10 * Supervisor.GlancesAllowed; i++)
        {
            _post.Ask("the interlock belt");
            Assert.Null(supervisor.Look());
            _post.Answered();
        }
    }

    [Fact]
    public void A_scan_that_waits_for_its_next_turn_or_for_the_recorder_is_left_alone()
    {
        using Supervisor supervisor = new(_post, _ => { });
        _post.Ask("the interlock belt");
        _post.Answered();

        for (int i = 0; i < 10 * Supervisor.GlancesAllowed; i++)
            Assert.Null(supervisor.Look());
    }

    [Fact]
    [Trait("Requirement", "SAF-077")]
    public void An_answer_that_comes_after_all_leads_nowhere()
    {
        using ManualResetEventSlim asked = new();
        using ManualResetEventSlim answer = new();
        bool wentOn = false;
        Thread scan = new(() =>
        {
            _post.Ask("the interlock belt");
            asked.Set();
            answer.Wait();
            _post.Answered();
            wentOn = true;
        })
        { IsBackground = true };
        scan.Start();
        asked.Wait(TestContext.Current.CancellationToken);

        Assert.Equal("the interlock belt", _post.GiveUp());
        answer.Set();
        while (_post.Standing.Asked is not null)
            Thread.Yield();

        Assert.False(scan.Join(TimeSpan.FromMilliseconds(50)));
        Assert.False(wentOn);
    }

    [Fact]
    public void A_scan_that_was_answered_just_then_is_not_named_and_stops_at_its_next_question()
    {
        _post.Ask("the interlock belt");
        _post.Answered();

        Assert.Null(_post.GiveUp());

        Thread scan = new(() =>
        {
            _post.Ask("the interlock belt");
            _post.Answered();
        })
        { IsBackground = true };
        scan.Start();
        Assert.False(scan.Join(TimeSpan.FromMilliseconds(50)));
    }
}
