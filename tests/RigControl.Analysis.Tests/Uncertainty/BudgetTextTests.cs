using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;

namespace RigControl.Analysis.Tests.Uncertainty;

/// <summary>A budget says in words what to measure better next.</summary>
public class BudgetTextTests
{
    [Fact]
    public void A_part_above_half_of_the_variance_is_named_alone() =>
        Assert.Equal("most of it from steady speed (82 %)", BudgetText.Mostly(Of(("steady speed", 0.82), ("moment of the demand", 0.18))));

    [Fact]
    public void Where_none_dominates_the_two_largest_are_named() =>
        Assert.Equal("from a (45 %) and b (40 %)", BudgetText.Mostly(Of(("a", 0.45), ("b", 0.40), ("c", 0.15))));

    [Fact]
    public void A_single_part_is_all_of_it_and_no_budget_says_nothing()
    {
        Assert.Equal("all of it from peak speed", BudgetText.Mostly(Of(("peak speed", 1.0))));
        Assert.Equal("", BudgetText.Mostly(Of()));
    }

    [Fact]
    public void Several_repeats_share_a_sentence_with_the_mean_of_their_shares()
    {
        Assert.Equal("most of it from a (70 %)", BudgetText.Mostly([Of(("a", 0.9), ("b", 0.1)), Of(("b", 0.5), ("a", 0.5))]));
        Assert.Equal("from a (50 %) and b (50 %)", BudgetText.Mostly([Of(("a", 1.0)), Of(("b", 1.0))]));
    }

    [Fact]
    public void The_whole_budget_names_every_part_that_matters_with_its_size_in_the_figures_unit() =>
        Assert.Equal("a 0.090 s (81 %), b 0.042 s (18 %)", BudgetText.Whole(Of(("a", 0.81), ("b", 0.18), ("c", 0.005))));

    [Fact]
    public void A_line_whose_size_nobody_knows_is_named_without_a_number_and_takes_no_share()
    {
        Figure figure = Of(("a", 0.81), ("b", 0.19));
        figure = figure with { Budget = [.. figure.Budget, UnsizedPart.Of("battery.current: no calibration")] };
        Assert.Equal("most of it from a (81 %)", BudgetText.Mostly(figure));
        Assert.Equal("most of it from a (81 %)", BudgetText.Mostly([figure, figure]));
        Assert.Equal("a 0.090 s (81 %), b 0.044 s (19 %), battery.current: no calibration", BudgetText.Whole(figure));
        Assert.Equal("all of it from a", BudgetText.Mostly(figure with { Budget = [figure.Budget[0], UnsizedPart.Of("x")] }));
        Assert.Equal("", BudgetText.Mostly(figure with { Budget = [UnsizedPart.Of("x")] }));
    }

    [Fact]
    public void What_has_no_size_is_told_once_with_all_figures_that_it_is_of()
    {
        Figure first = Of(("a", 1)) with { Budget = [UnsizedPart.Of("battery.current: no calibration")] };
        Assert.Equal(
            ["battery.current: no calibration, of unknown size in spin-up-time, mean-current"],
            BudgetText.Unsized([first, first with { Repeat = 2 }, first with { Name = "mean-current" }, Of(("a", 1))], f => f.Name));
    }

    // Of a standard uncertainty of 0.1 s.
    private static Figure Of(params (string Name, double Share)[] parts) => new("spin-up-time", 2, "s", 0.1, null, 1, "m", null)
    {
        Budget = [.. parts.Select(p => new Contribution(p.Name, 0.1 * Math.Sqrt(p.Share), p.Share))],
    };
}
