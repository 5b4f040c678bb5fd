using RigControl.Cli.Terminal;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Scanning;

namespace RigControl.Cli.Tests.Terminal;

/// <summary>What a person at the keyboard is told to do by hand.</summary>
public class TerminalOperatorTests
{
    private const string Words = "Push the stick slowly forward until it turns, and leave it there.";

    [Theory]
    [InlineData(RigState.Idle, true)]
    [InlineData(RigState.SpinUp, true)]
    [InlineData(RigState.Hold, true)]
    [InlineData(RigState.Arming, false)]
    [InlineData(RigState.SafeStop, false)]
    public void What_is_to_be_done_by_hand_is_shown_while_it_can_be_done(RigState state, bool shown)
    {
        TerminalOperator person = new(Procedure);
        person.See(new ScanRecord { State = state }, new CommandInbox());
        Assert.Equal(shown ? Words : "", person.Prompt);
    }

    [Fact]
    public void A_step_in_which_nobody_has_to_do_anything_shows_nothing()
    {
        TerminalOperator person = new(Procedure);
        person.See(new ScanRecord { State = RigState.SpinUp, Step = 0 }, new CommandInbox());
        person.See(new ScanRecord { State = RigState.SpinUp, Step = 1 }, new CommandInbox());
        Assert.Equal("", person.Prompt);
    }

    private static Procedure Procedure => new()
    {
        Name = "by-hand", Repeat = 1, Requires = [], Figures = [],
        Steps =
        [
            new Step { Kind = StepKind.Gate, Timeout = TimeSpan.FromSeconds(60), Hand = new HandAct(Words, HandMove.StickOpen) },
            new Step { Kind = StepKind.CoastDown, Timeout = TimeSpan.FromSeconds(60) },
        ],
    };
}
