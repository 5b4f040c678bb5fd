using System.Globalization;

namespace RigControl.Analysis.Commissioning;

/// <summary>How long the controller took to get ready: from the power to the last marker before anything was asked for.</summary>
internal static class ArmingFinding
{
    /// <summary>Added to what was heard, s: a person presses after the beep, and the next start may be slower. Common practice.</summary>
    public const double Reserve = 1;

    public static Finding Of(RotorOffRun run)
    {
        double[] heard = [.. run.Marks.Where(m => m > run.ArmedAt && !(m > run.FirstRise))];
        if (heard.Length == 0)
            return new("arming-time", Verdict.Unknown, null, "no marker was set before the start: press m at the last of the controller's beeps");
        double took = heard.Max() - run.ArmedAt;
        double due = Math.Ceiling((took + Reserve) * 10) / 10;
        double declared = run.Article.Controller.ArmingTime.TotalSeconds;
        FormattableString seen = $"the last marker came {took:0.0} s after the power";
        // Shorter is dangerous to nothing, but the motor then ignores the first level; much longer only costs patience.
        return declared >= due
            ? new("arming-time", Verdict.Holds, null, seen.ToString(CultureInfo.InvariantCulture) + string.Create(CultureInfo.InvariantCulture, $"; {declared:0.#} s leaves {declared - took:0.0} s"))
            : new("arming-time", Verdict.Change, string.Create(CultureInfo.InvariantCulture, $"{due:0.0} s"), seen.ToString(CultureInfo.InvariantCulture) + ", and a second more is good practice");
    }
}
