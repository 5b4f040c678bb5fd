using RigControl.Model.Rig;

namespace RigControl.Analysis.Uncertainty;

/// <summary>
/// Parts of a budget whose error is the same in every repeat of a run, told by their names: what the article declares, how a channel is
/// calibrated, what a model leaves out. No number of repeats averages them out.
/// </summary>
public static class SharedPart
{
    /// <summary>Drag that the data of a coast-down cannot tell from nothing, and that slows every repeat alike.</summary>
    public const string TermsLeftOut = "terms left out";

    /// <summary>A second, quicker lump of heat that the data cannot settle.</summary>
    public const string SecondLump = "second lump left out";

    /// <summary>How much a winding warms while it is looked at, which no speed shows.</summary>
    public const string Warming = "warming of the winding";

    /// <summary>By how much a controller lags behind a ramp, which no reading shows.</summary>
    public const string Lag = "lag of the controller";

    /// <summary>By how much a winding is hotter than its sensor, which nobody sees.</summary>
    public const string HotterWinding = "winding hotter than its sensor";

    private const string CalibrationOf = "calibration of ";

    private static readonly HashSet<string> OfModels = [TermsLeftOut, SecondLump, Warming, HotterWinding, Lag];

    private static readonly HashSet<string> Steps = ["resolution", "resolution of the scale", "step of the instrument"];

    /// <summary>Name of a part that the article declares.</summary>
    /// <exception cref="ArgumentException">No article states the uncertainty of it.</exception>
    public static string Declared(string key) => UncertaintyKeys.All.ContainsKey(key)
        ? key
        : throw new ArgumentException($"no article states the uncertainty of {key}", nameof(key));

    /// <summary>Name of the part that a channel's calibration adds.</summary>
    public static string Calibration(string channel) => CalibrationOf + channel;

    /// <summary>Whether the error of a part is the same in every repeat, however much the repeats scatter.</summary>
    public static bool Is(string name) => UncertaintyKeys.All.ContainsKey(name) || OfModels.Contains(name) || name.StartsWith(CalibrationOf, StringComparison.Ordinal);

    /// <summary>
    /// Whether a part comes from the step of a reading: the same in every repeat as long as all stand on the same step, and drawn anew where
    /// they scatter over several.
    /// </summary>
    public static bool IsStep(string name) => Steps.Contains(name);
}
