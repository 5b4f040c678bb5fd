using System.Globalization;
using RigControl.Logbook;
using RigControl.Model.Signals;

namespace RigControl.Cli.Comparing;

/// <summary>How alike the pack must be before every run, so that it is not the pack that a comparison sees.</summary>
/// <param name="Low">Lowest voltage at which the runs so far began, V.</param>
/// <param name="High">Highest, V.</param>
/// <param name="Within">V within which all runs of a comparison are to begin.</param>
internal sealed record PackCondition(double Low, double High, double Within)
{
    // Speed goes with the voltage, current too and energy with its square: a quarter of what is to be seen is then at most
    // half of it, and the interleaved order takes out the rest. Derived.
    private const double Share = 0.25;

    /// <summary>To go on a sentence about the pack.</summary>
    public string Text => string.Create(CultureInfo.InvariantCulture, $", within {Within:0.00} V of each other at rest (they began at {Low:0.00} to {High:0.00} V so far)");

    /// <summary>Null where no run has read its pack, or the size is not known as a share.</summary>
    /// <param name="share">Size of the difference to see, as a share of the figure.</param>
    public static PackCondition? For(LogbookFile book, IReadOnlyList<string> runs, double share)
    {
        double[] began = [.. runs.Select(r => ConditionReader.First(book, book.Header(r), ChannelNames.BatteryVoltage)).Where(v => !double.IsNaN(v))];
        return began.Length == 0 || !double.IsFinite(share) ? null : new PackCondition(began.Min(), began.Max(), Share * share * began.Average());
    }
}
