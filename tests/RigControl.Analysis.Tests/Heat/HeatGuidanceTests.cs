using RigControl.Analysis.Heat;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Heat;

/// <summary>Source: thermo/limits.csv: ISO 75-2 as typical data sheets give it, ISO 13732-1:2006 (both from memory).</summary>
public class HeatGuidanceTests
{
    [Fact]
    public void Every_plastic_gives_way_where_the_table_of_reference_begins()
    {
        (string Plastic, double From)[] table =
        [
            .. Reference.Lines("thermo/limits.csv").Where(c => c[0].StartsWith("polymer HDT", StringComparison.Ordinal) && c[2] != "n/a")
                .Select(c => (c[1].Split(' ')[0], Reference.Number(c[2].Split('-')[0]))),
        ];
        Assert.Equal(8, table.Length);
        Assert.Equal(table.OrderBy(m => m.From), HeatGuidance.Mounts);
    }

    [Theory]
    [InlineData("a second", "bare metal 1 s")]
    [InlineData("ten seconds", "bare metal 10 s")]
    [InlineData("a minute", "bare metal 1 min")]
    public void Skin_burns_on_bare_metal_where_the_standard_says(string touch, string item) =>
        Assert.Equal(Reference.Number(Reference.Lines("thermo/limits.csv").Single(c => c[1] == item)[2]), HeatGuidance.Touches.Single(t => t.Touch == touch).From);

    [Theory]
    [InlineData(20)]
    [InlineData(44.9)]
    [InlineData(double.NaN)]
    public void A_part_that_stayed_cool_has_nothing_said_of_it(double hottest) => Assert.Null(HeatGuidance.Of("motor.temperature", hottest));

    [Fact]
    public void A_part_too_hot_for_a_mount_alone_is_not_said_to_burn()
    {
        string told = HeatGuidance.Of("motor.temperature", 50)!;
        Assert.Contains("PA12 from 45, PLA from 50 degC: ISO 75-2", told, StringComparison.Ordinal);
        Assert.DoesNotContain("PETG", told, StringComparison.Ordinal);
        Assert.DoesNotContain("burn", told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(51, "within a minute (from 51 degC: ISO 13732-1:2006)")]
    [InlineData(55, "within ten seconds (from 55 degC")]
    [InlineData(64.9, "within ten seconds")]
    [InlineData(65, "within a second (from 65 degC")]
    [InlineData(200, "within a second")]
    public void The_shortest_touch_that_burns_is_named_with_its_source(double hottest, string expected) =>
        Assert.Contains(expected, HeatGuidance.Of("controller.temperature", hottest), StringComparison.Ordinal);

    [Fact]
    public void It_says_of_itself_that_it_is_no_limit() => Assert.Equal(
        "motor.temperature was 66 degC at its hottest, where a printed mount gives way under load (PA12 from 45, PLA from 50, PA6 from 55, PETG from 65 degC: ISO 75-2, as data "
        + "sheets usually have it) and bare metal may burn the skin within a second (from 65 degC: ISO 13732-1:2006); guidance (values from memory), not a limit",
        HeatGuidance.Of("motor.temperature", 66.4));
}
