using RigControl.Cli.Signals;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Terminal;

/// <summary>The channels with their latest readings, in as many columns as there is room for; above them what a run is about.</summary>
internal sealed class ChannelRows(AssembledRig rig)
{
    private const int Gap = 3;
    private const int ValueWidth = 15;

    // A unit tells most of them apart; only what it does not tell is named.
    private static readonly (string Channel, string Called)[] Chief =
    [
        (ChannelNames.RotorSpeed, ""), (ChannelNames.OutputThrottle, "throttle "), (ChannelNames.BatteryCurrent, ""), (ChannelNames.BatteryVoltage, ""),
        (ChannelNames.MotorTemperature, "motor "), (ChannelNames.ControllerTemperature, "controller "),
    ];

    private static readonly string[] OfTheHost = ["device", "recorder", "scan", "failsafe", "operator"];

    /// <summary>The few readings that somebody glances at during a run, those of them that the rig has.</summary>
    public Line Glance(in InputImage image, int width)
    {
        List<string> parts = [];
        foreach ((string name, string called) in Chief)
        {
            if (rig.Channels.FirstOrDefault(c => c.Name == name) is { } channel)
                parts.Add(called + SignalText.Steady(Signal.Of(channel, "", image[channel.Index]), Math.Max(0.1, channel.Declaration.Resolution)));
        }

        return new Line(Line.Fit(string.Join("   ", parts), width), Line.Bold);
    }

    public IReadOnlyList<Line> Of(in InputImage image, int width, int most)
    {
        Channel[] channels = [.. rig.Channels.Where(c => !OfTheHost.Contains(c.Name.Split('.')[0]))];
        int name = channels.Max(c => c.Name.Length);
        int columns = Math.Max(1, (width + Gap) / (name + 1 + ValueWidth + Gap));
        int rows = (channels.Length + columns - 1) / columns;
        List<Line> lines = [];
        for (int row = 0; row < Math.Min(rows, most); row++)
            lines.Add(new Line(Line.Fit(Row(channels, image, row, rows, name).TrimEnd(), width)));
        return lines;
    }

    private static string Row(Channel[] channels, in InputImage image, int row, int rows, int name)
    {
        List<string> cells = [];
        for (int i = row; i < channels.Length; i += rows)
            cells.Add($"{channels[i].Name.PadRight(name)} {Value(channels[i], image).PadLeft(ValueWidth)}");
        return string.Join(new string(' ', Gap), cells);
    }

    private static string Value(Channel channel, in InputImage image) => SignalText.Steady(Signal.Of(channel, "", image[channel.Index]), channel.Declaration.Resolution);
}
