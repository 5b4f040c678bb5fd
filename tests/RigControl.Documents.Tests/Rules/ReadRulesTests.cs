using RigControl.Documents.Tests.Support;
using RigControl.Model.Rig;

namespace RigControl.Documents.Tests.Rules;

/// <summary>A limit that was copied from an event's rules is kept with where it stands and of which day.</summary>
public class ReadRulesTests
{
    [Fact]
    public void A_limit_is_read_with_its_source_and_its_day()
    {
        EventRules rules = Read(Samples.Rules);
        Assert.Equal("club-evening", rules.Name);
        Assert.Equal(new RuleLimit(RuleKind.ClassMass, 1.5, "handbook, page 3", new DateOnly(2026, 5, 31)), rules.Find(RuleKind.ClassMass));
    }

    [Theory]
    [InlineData("50 m/s", 50)]
    [InlineData("180 km/h", 50)]
    public void A_limit_may_be_written_in_any_unit_of_its_kind(string written, double metresPerSecond) =>
        Assert.Equal(metresPerSecond, Read(Samples.Rules.Replace("50 m/s", written)).Find(RuleKind.TipSpeed)!.Value, 1e-9);

    [Fact]
    public void A_blank_file_is_in_order_and_limits_nothing() => Assert.Empty(Read("rules: blank\nlimits: {}").Limits);

    [Fact]
    public void The_file_that_comes_along_limits_nothing() => Assert.Empty(Read(Repository.Read("procedures/blank.rules.yaml")).Limits);

    [Fact]
    public void A_limit_that_was_not_copied_is_not_known() =>
        Assert.Null(Read("rules: r\nlimits:\n  voltage: { value: 12 V, source: s, date: 2026-01-01 }").Find(RuleKind.ClassMass));

    private static EventRules Read(string text)
    {
        Reading<EventRules> reading = DocumentReader.ReadRules(text, "f");
        Assert.Empty(reading.Problems);
        return reading.Value!;
    }
}
