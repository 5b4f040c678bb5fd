using Microsoft.CodeAnalysis.Text;
using RigControl.Mutants.Changing;
using RigControl.Mutants.Evidence;
using RigControl.Mutants.Kernel;
using RigControl.Mutants.Planted;
using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Tests;

/// <summary>What is counted and kept of what was tried.</summary>
public class EvidenceTests
{
    private static readonly Verdict Caught = new(true, "LidTests.It_is_seen");

    [Fact]
    public void The_failed_test_is_named_as_the_one_that_noticed()
    {
        Assert.Equal(new Verdict(true, "Shared.LidTests.It_is_seen(lid: \"a (b)\")"),
            Verdict.OfTests(new Ended(2, "failed RigControl.Interlocks.Tests.Shared.LidTests.It_is_seen(lid: \"a (b)\") (12ms)\n  Assert\n")));
        Assert.Equal(new Verdict(true, "No reset while a cause stands"), Verdict.OfFirmwareTests(new Ended(1, "passed  One\nFAILED  No reset while a cause stands\n")));
    }

    [Fact]
    public void A_run_that_breaks_off_or_never_ends_has_noticed_and_one_that_passes_has_not()
    {
        Assert.Equal("the tests broke off with code 134", Verdict.OfTests(new Ended(134, "")).By);
        Assert.Equal("the tests did not come to an end", Verdict.OfTests(new Ended(null, "")).By);
        Assert.Equal(Verdict.Unnoticed, Verdict.OfTests(new Ended(0, "")));
    }

    [Fact]
    public void The_score_is_said_with_and_without_what_cannot_be_told_apart()
    {
        Mutation any = new("src/X.cs", default, "<", "<=", "comparison moved by one", 1, "a < b");
        Score score = new([new(any, Caught), new(any, Caught), new(any, Caught), new(any, Verdict.Unnoticed)]);
        Assert.Equal((0.75, 0.75, 1, 0), (score.OfAll, score.OfDifferent, score.Missed.Count, score.Same.Count));
        Assert.StartsWith("3 of 4 caught: 75.0", score.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_cannot_be_told_apart_stands_in_the_present_sources_with_its_reason()
    {
        Assert.All(Equivalent.All, e =>
        {
            Assert.Contains(File.ReadLines(Checkout.At(e.File)), l => l.Trim() == e.Source);
            Assert.EndsWith(".", e.Why, StringComparison.Ordinal);
            Assert.Equal(e.Why, Equivalent.WhyNot(new Mutation(e.File, default(TextSpan), e.Before, e.After, "", 1, e.Source)));
        });
        Assert.Null(Equivalent.WhyNot(new Mutation("src/X.cs", default, "<", "<=", "", 1, "a < b")));
    }

    [Fact]
    public void One_part_of_the_page_is_written_and_the_other_is_left()
    {
        string page = Page.With(Page.With("# Head\n", "One", "first\n"), "Two", "second");
        Assert.Equal("# Head\n\n## One\n\nfirst\n\n## Two\n\nsecond\n", page);
        Assert.Equal(page.Replace("first", "other", StringComparison.Ordinal), Page.With(page, "One", "other"));
    }

    [Fact]
    public void The_page_names_every_defect_with_the_test_that_caught_it_and_shows_what_nobody_noticed()
    {
        PlantedDefect defect = PlantedList.All[0];
        string text = PlantedPart.Text([(defect, Caught), (PlantedList.All[1], Verdict.Unnoticed)]);
        Assert.Contains("**1 of 2 caught.**", text, StringComparison.Ordinal);
        Assert.Contains($"| {defect.Wrong} | LidTests.It_is_seen |", text, StringComparison.Ordinal);
        Assert.Contains($"| {PlantedList.All[1].Wrong} | **nobody** |", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_page_lists_every_mutant_that_was_not_caught()
    {
        Mutation missed = new("src/X.cs", default, "||", "&&", "and for or", 7, "a || b");
        string text = KernelPart.Text([new(missed, Verdict.Unnoticed)], places: 12, seed: 3, asked: 1, quick: true);
        Assert.Contains("kernel 1 3 --quick --evidence", text, StringComparison.Ordinal);
        Assert.Contains("| X.cs:7 | `a \\|\\| b` | and for or: `\\|\\|` → `&&` |", text, StringComparison.Ordinal);
    }
}
