using System.Globalization;
using RigControl.Model.Signals;

namespace RigControl.Cli.Signals;

/// <summary>Signals as text: one line of everything, and the parts that a table is made of.</summary>
internal static class SignalText
{
    private static readonly Dictionary<string, (string Zero, string One)> Contacts = new()
    {
        [ChannelNames.OutputPower] = ("off", "on"),
        [ChannelNames.EnclosureLid] = ("open", "closed"),
        [ChannelNames.EnclosureLidOpen] = ("closed", "open"),
        [ChannelNames.EnclosureLock] = ("unlocked", "locked"),
        [ChannelNames.StopClear] = ("pressed", "clear"),
        [ChannelNames.RadioLink] = ("lost", "present"),
    };

    // What the program writes itself is no input; it stands in the JSON.
    public static IEnumerable<Signal> Inputs(Snapshot seen) => seen.Channels.Where(c => c.Device != "host");

    public static string Line(Snapshot seen)
    {
        string time = seen.At.ToString("0.0", CultureInfo.InvariantCulture);
        return $"{time,8} s  {string.Join("  ", Inputs(seen).Select(c => $"{c.Name} {Value(c)}"))}";
    }

    public static string Value(Signal signal)
    {
        if (signal.Value is not { } value)
            return signal.Reason ?? "none";
        if (Contacts.TryGetValue(signal.Name, out (string Zero, string One) words) && value is 0 or 1)
            return value == 0 ? $"0 {words.Zero}" : $"1 {words.One}";
        string unit = signal.Unit == "1" ? "" : " " + Shown(signal.Unit);
        string doubtful = signal.Quality == "Uncertain" ? "?" : "";
        return value.ToString("0.###", CultureInfo.InvariantCulture) + unit + doubtful;
    }

    /// <summary>The same with as many decimals as the channel resolves, so that nothing jumps to and fro; at most three.</summary>
    public static string Steady(Signal signal, double resolution)
    {
        string plain = Value(signal);
        if (signal.Value is not { } value || !plain.StartsWith(value.ToString("0.###", CultureInfo.InvariantCulture), StringComparison.Ordinal) || signal.Unit == "1")
            return plain;
        int decimals = resolution >= 1 ? 0 : resolution >= 0.1 ? 1 : resolution >= 0.01 ? 2 : 3;
        string unit = " " + Shown(signal.Unit) + (signal.Quality == "Uncertain" ? "?" : "");
        double rounded = Math.Round(value, decimals) + 0.0; // no minus before a zero
        return rounded.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) + unit;
    }

    private static string Shown(string unit) => unit == "degC" ? "°C" : unit;
}
