using RigControl.Logbook.Texts;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests.Texts;

/// <summary>Outcomes as other programs read them.</summary>
public class OutcomeNamesTests
{
    [Theory]
    [InlineData(RunOutcome.Completed, "completed")]
    [InlineData(RunOutcome.Refused, "refused")]
    [InlineData(RunOutcome.SafeStop, "safe-stop")]
    [InlineData(RunOutcome.Failed, "failed")]
    [InlineData(RunOutcome.BrokenOff, "broken-off")]
    public void An_outcome_has_its_word(RunOutcome outcome, string name)
    {
        Assert.Equal(name, OutcomeNames.Name(outcome));
        Assert.Equal(outcome, OutcomeNames.Parse(name));
    }

    [Fact]
    public void Every_outcome_has_a_word_of_its_own() =>
        Assert.Equal(Enum.GetValues<RunOutcome>().Length, Enum.GetValues<RunOutcome>().Select(OutcomeNames.Name).Distinct().Count());

    [Fact]
    public void Another_word_is_damage() => Assert.Throws<InvalidDataException>(() => OutcomeNames.Parse("splendid"));
}
