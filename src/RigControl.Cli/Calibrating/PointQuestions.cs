using System.Globalization;
using RigControl.Analysis.Calibrations;

namespace RigControl.Cli.Calibrating;

/// <summary>Asks for one reference after another and reads the channel at each.</summary>
internal static class PointQuestions
{
    // Nobody applies more by hand; whoever pipes more in has made a mistake.
    private const int Most = 100;

    /// <summary>Points and their unit; an empty line ends the asking.</summary>
    /// <param name="uncertainty">Of each reading and reference by itself, beside what the readings scatter, in the channel's unit.</param>
    public static (IReadOnlyList<CalibrationPoint> Points, string Unit) Ask(ReadingTaker taker, string channel, double uncertainty)
    {
        List<CalibrationPoint> points = [];
        string unit = "";
        while (points.Count < Most)
        {
            Console.Error.Write($"Apply a reference to {channel}, wait until it stands, and type its value (nothing to end): ");
            string? line = Console.In.ReadLine()?.Trim();
            if (string.IsNullOrEmpty(line))
                break;
            if (!double.TryParse(line, NumberStyles.Float, CultureInfo.InvariantCulture, out double reference) || !double.IsFinite(reference))
            {
                Console.Error.WriteLine($"{line} is not a number; write one with a decimal point");
                continue;
            }

            (double mean, double scatter, unit) = taker.Take(channel);
            points.Add(new CalibrationPoint(mean, scatter, reference, uncertainty));
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"point {points.Count}: reads {mean:G6} ± {scatter:G2} {unit}"));
        }

        return (points, unit);
    }
}
