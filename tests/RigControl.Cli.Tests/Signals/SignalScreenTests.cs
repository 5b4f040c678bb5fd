using RigControl.Cli.Signals;
using Spectre.Console;

namespace RigControl.Cli.Tests.Signals;

/// <summary>What <c>signals</c> shows on a terminal and on a line.</summary>
public class SignalScreenTests
{
    private static readonly Snapshot Seen = new(
        "box", false, "SafeStop", 12.34,
        [
            new Signal("rotor.speed", "board", 0, "rpm", "Good", null),
            new Signal("enclosure.lid", "board", 0, "1", "Good", null),
            new Signal("motor.temperature", "board", null, "degC", "Bad", "out of range"),
            new Signal("battery.voltage", "board", 12.3456, "V", "Uncertain", null),
            new Signal("scan.lateness", "host", 0.1, "ms", "Good", null),
        ],
        [
            new Objecting("lid-closed", true, "the lid is open: enclosure.lid reads 0, not 1, which is a sentence that is longer than a narrow terminal is wide"),
            new Objecting("stop-clear", false, "the stop circuit is closed"),
        ]);

    [Theory]
    [InlineData(60)]
    [InlineData(80)]
    [InlineData(200)]
    public void Every_input_is_there_and_every_objection_in_full(int width)
    {
        string shown = Drawn(width);
        string[] rows = shown.Split('\n');
        Assert.All(rows, r => Assert.True(r.TrimEnd().Length <= width, r));
        Assert.StartsWith("SAFE-STOP  box  12.3 s", shown, StringComparison.Ordinal);
        Assert.Contains("every output off, nothing armed", shown, StringComparison.Ordinal);
        Assert.Matches(@"enclosure\.lid +0 open", shown);
        Assert.Matches(@"motor\.temperature +out of range", shown);
        Assert.Matches(@"battery\.voltage +12\.346 V\?", shown);
        Assert.DoesNotContain("scan.lateness", shown, StringComparison.Ordinal);
        Assert.Contains("1 of 2 interlocks object", shown, StringComparison.Ordinal);
        string words = string.Join(' ', shown.Split([' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("lid-closed: the lid is open: enclosure.lid reads 0, not 1, which is a sentence that is longer than a narrow terminal is wide", words, StringComparison.Ordinal);
    }

    [Fact]
    public void In_a_pipe_it_is_one_line_without_colour() =>
        Assert.Equal(
            "    12.3 s  rotor.speed 0 rpm  enclosure.lid 0 open  motor.temperature out of range  battery.voltage 12.346 V?", SignalText.Line(Seen));

    [Theory]
    [InlineData(20.04, 0.1, "20.0 °C")]
    [InlineData(-0.02, 0.1, "0.0 °C")]
    [InlineData(1234.6, 1, "1235 °C")]
    [InlineData(0.12345, 0.00001, "0.123 °C")]
    public void On_the_live_screen_a_reading_has_as_many_decimals_as_its_channel_resolves(double value, double resolution, string shown) =>
        Assert.Equal(shown, SignalText.Steady(new Signal("x", "d", value, "degC", "Good", null), resolution));

    private static string Drawn(int width)
    {
        using StringWriter text = new();
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Ansi = AnsiSupport.No, ColorSystem = ColorSystemSupport.NoColors, Out = new AnsiConsoleOutput(text) });
        console.Profile.Width = width;
        console.Write(SignalScreen.Of(Seen, width));
        return text.ToString();
    }
}
