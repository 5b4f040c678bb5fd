using RigControl.Cli.Output;
using RigControl.Model.Records;

namespace RigControl.Cli.Tests.Output;

public class FigureTextTests
{
    private const string Minded = "motor.temperature was 67 degC at its hottest, where a mount gives way";

    [Fact]
    public void What_a_temperature_means_stands_once_below_the_figures_however_many_repeats_there_were()
    {
        string[] lines = [.. FigureText.Table([Rise(1, Minded), Rise(2, Minded), Rise(3, null)])];
        Assert.Equal(5, lines.Length);
        Assert.Equal($"temperature-rise: {Minded}", lines[^1]);
    }

    [Fact]
    public void A_part_that_stayed_cool_adds_no_line() => Assert.Equal(2, FigureText.Table([Rise(1, null)]).Count());

    [Fact]
    public void Why_there_is_no_rise_is_not_said_twice()
    {
        string[] lines = [.. FigureText.Table([new Figure("temperature-rise", null, "K", null, null, 1, "highest minus first", "the record has no temperature")])];
        Assert.Equal(2, lines.Length);
        Assert.Contains("no value: the record has no temperature", lines[1], StringComparison.Ordinal);
    }

    private static Figure Rise(int repeat, string? note) => new("temperature-rise", 40, "K", 0.5, (39, 41), repeat, "highest minus first of motor.temperature", note);
}
