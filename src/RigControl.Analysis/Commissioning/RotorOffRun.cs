using RigControl.Analysis.Traces;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Commissioning;

/// <summary>A run with nothing on the shaft, as far as it tells about controller and tachometer. All times in s.</summary>
/// <param name="Trace">Its samples and repeats.</param>
/// <param name="Article">As declared in that run.</param>
/// <param name="ArmedAt">When the power came on for the first time; not a number where it never did.</param>
/// <param name="Marks">When somebody set a marker.</param>
/// <param name="Answers">What somebody answered, by the question's name: a number in its unit, or the word that was chosen.</param>
public sealed record RotorOffRun(Trace Trace, Article Article, double ArmedAt, IReadOnlyList<double> Marks, IReadOnlyDictionary<string, string> Answers)
{
    /// <summary>Below this a shaft counts as standing, rpm; the rest speed of a coast-down.</summary>
    public const double RestSpeed = 60;

    /// <summary>Names of the questions that are looked at.</summary>
    public const string SecondSpeed = "second-speed", Sense = "turns-the-right-way", AtStop = "after-the-stop";

    public Series? Speed => Trace.Find(ChannelNames.RotorSpeed);

    public Series? Pulse => Trace.Find(ChannelNames.OutputPulse);

    /// <summary>When the output rose for the first time; not a number where it never did.</summary>
    public double FirstRise => Trace.Segments.Count > 0 ? Trace.Segments[0].RiseAt : double.NaN;

    /// <summary>Everything that the run says.</summary>
    public IReadOnlyList<Finding> Findings() =>
        [.. RangeFindings.Of(this), ArmingFinding.Of(this), .. SeenFindings.Of(this), MarksFinding.Of(this)];
}
