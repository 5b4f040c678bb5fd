namespace RigControl.Runtime.Tests.Sessions;

public class PaceTests
{
    [Theory]
    [InlineData("real", PaceKind.Real, 1)]
    [InlineData("max", PaceKind.Max, 1)]
    [InlineData("20", PaceKind.Times, 20)]
    [InlineData("0.01", PaceKind.Times, 0.01)]
    [InlineData("1000", PaceKind.Times, 1000)]
    public void A_pace_is_read_as_written(string text, PaceKind kind, double factor) => Assert.Equal(new Pace(kind, factor), Pace.Parse(text));

    [Theory]
    [InlineData("")]
    [InlineData("fast")]
    [InlineData("0")]
    [InlineData("-1")]
    [InlineData("0.009")]
    [InlineData("1001")]
    [InlineData("NaN")]
    [InlineData("1,5")]
    public void Anything_else_is_no_pace(string text) => Assert.Null(Pace.Parse(text));

    [Fact]
    public void The_pace_nobody_chose_is_the_real_one() => Assert.Equal(PaceKind.Real, default(Pace).Kind);
}
