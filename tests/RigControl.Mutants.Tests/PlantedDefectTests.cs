using RigControl.Mutants.Planted;

namespace RigControl.Mutants.Tests;

/// <summary>The list of planted defects can be planted, some of them are, and a change that is no defect is not taken for one.</summary>
public class PlantedDefectTests(ITestOutputHelper output)
{
    private const string Kernel = "RigControl.Kernel.Tests";
    private const string Interlocks = "RigControl.Interlocks.Tests";

    [Fact]
    public void Every_planted_defect_stands_once_in_the_present_sources() =>
        Assert.Empty(PlantedList.All.Select(PlantedList.Problem).OfType<string>());

    [Fact]
    public void No_defect_is_planted_twice() =>
        Assert.Equal(PlantedList.All.Count, PlantedList.All.Select(d => (d.File, d.Before, d.After)).Distinct().Count());

    [Theory]
    [InlineData("src/RigControl.Kernel/", 15)]
    [InlineData("src/RigControl.Kernel/OutputGuard.cs", 5)]
    [InlineData("plugins/RigControl.Interlocks/", 10)]
    [InlineData("shared/board/", 10)]
    public void Defects_are_planted_where_a_mistake_would_hurt(string where, int atLeast) =>
        Assert.True(PlantedList.All.Count(d => d.File.StartsWith(where, StringComparison.Ordinal)) >= atLeast);

    [Fact]
    public void An_entry_whose_text_is_gone_is_found()
    {
        PlantedDefect gone = new("src/RigControl.Kernel/Fold.cs", "no such text", "", "It is gone.", Kernel);
        Assert.StartsWith("src/RigControl.Kernel/Fold.cs does not hold exactly once", PlantedList.Problem(gone), StringComparison.Ordinal);
        Assert.Throws<InvalidOperationException>(() => gone.Plant("some other text"));
        Assert.Equal("there is no src/Nowhere.cs", PlantedList.Problem(gone with { File = "src/Nowhere.cs" }));
    }

    // All of them take minutes and have a command of their own; which are taken here changes from day to day.
    [Theory]
    [InlineData(Kernel, 2)]
    [InlineData(Interlocks, 1)]
    [InlineData(PlantedDefect.FirmwareTests, 1)]
    public void Some_of_them_are_planted_and_the_tests_notice(string noticed, int count)
    {
        Assert.SkipUnless(noticed != PlantedDefect.FirmwareTests || File.Exists("/usr/bin/gcc"), "the firmware's tests were not built: apt install gcc make");
        int seed = DateTime.UtcNow.DayOfYear;
        output.WriteLine($"seed {seed}");
        PlantedDefect[] order = [.. PlantedList.All.Where(d => d.Noticed == noticed)];
        new Random(seed).Shuffle(order);
        using Planter planter = new();
        foreach (PlantedDefect defect in order.Take(count))
        {
            output.WriteLine($"{defect.File}: {defect.Wrong}");
            Assert.True(planter.Try(defect).IsCaught, $"seed {seed}: nobody noticed in {defect.File}: {defect.Wrong}");
        }
    }

    [Fact]
    public void A_change_that_changes_nothing_is_noticed_by_nobody()
    {
        PlantedDefect none = new("plugins/RigControl.Interlocks/Shared/Margin.cs", "Limits are above zero.", "Limits are never zero.", "It is a comment.", Interlocks);
        using Planter planter = new();
        Assert.Null(PlantedList.Problem(none));
        Assert.False(planter.Try(none).IsCaught);
    }

    [Fact]
    public void A_change_that_cannot_be_compiled_is_no_defect()
    {
        PlantedDefect broken = new("plugins/RigControl.Interlocks/OverSpeed.cs", "worst.Size <= limit", "worst.Size <", "It is no program.", Interlocks);
        using Planter planter = new();
        Assert.Throws<InvalidOperationException>(() => planter.Try(broken));
    }
}
