using RigControl.Logbook.Texts;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests.Texts;

/// <summary>A budget comes back line by line, bit for bit, and a text that is none is told.</summary>
public class BudgetDataTests
{
    [Fact]
    public void Every_budget_comes_back_bit_for_bit()
    {
        Random random = new(5);
        for (int i = 0; i < 300; i++)
        {
            Contribution[] budget = [.. Enumerable.Range(0, random.Next(1, 6)).Select(n => new Contribution(
                $"part \"{n}\" µ{random.Next()}", BitConverter.Int64BitsToDouble(random.NextInt64()), random.NextDouble()))];
            IReadOnlyList<Contribution> read = BudgetData.Read(BudgetData.Write(budget));
            Assert.Equal(budget.Select(b => b.Name), read.Select(b => b.Name));
            Assert.Equal(budget.Select(b => Bits(b.Uncertainty)), read.Select(b => Bits(b.Uncertainty)));
            Assert.Equal(budget.Select(b => Bits(b.Share)), read.Select(b => Bits(b.Share)));
        }
    }

    [Fact]
    public void A_figure_without_a_budget_takes_no_text()
    {
        Assert.Null(BudgetData.Write([]));
        Assert.Empty(BudgetData.Read(null));
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("[{\"share\":1}]")]
    [InlineData("[null]")]
    [InlineData("[{\"name\":\"a\",\"share\":\"much\"}]")]
    public void A_text_that_is_no_budget_is_damage_and_no_fault_of_the_program(string text) =>
        Assert.Throws<InvalidDataException>(() => BudgetData.Read(text));

    // Every way of writing "not a number" is the same to a reader.
    private static long Bits(double value) => double.IsNaN(value) ? 0 : BitConverter.DoubleToInt64Bits(value);
}
