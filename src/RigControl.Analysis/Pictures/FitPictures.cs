using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Pictures;

/// <summary>Every fit that a run's data support, each as a picture; fits that fail are left out with their reason.</summary>
public static class FitPictures
{
    private delegate IEnumerable<FitPicture> Draw(FigureContext context);

    private static readonly (string Of, Draw Draw)[] Kinds =
    [
        ("spin-up", SpeedPictures.SpinUp), ("coast-down", SpeedPictures.CoastDown), ("torque", RisePictures.Torque),
        ("mechanical power", RisePictures.MechanicalPower), ("efficiency", RisePictures.Efficiency), ("electrical power", DrivePictures.ElectricalPower),
        ("motor", DrivePictures.Motor), ("pack", DrivePictures.Pack), ("heating", HeatPictures.Heating), ("cooling", HeatPictures.Cooling),
    ];

    /// <param name="input">As for the figures.</param>
    /// <param name="added">kg.m2 that the second of two repeats has more; null for none.</param>
    /// <returns>Pictures in order of repeat, and a sentence for each that cannot be had.</returns>
    public static (IReadOnlyList<FitPicture> Pictures, IReadOnlyList<string> Reasons) Of(FigureInput input, Input? added = null)
    {
        List<FitPicture> pictures = [];
        List<string> reasons = [];
        foreach (Traces.Segment segment in input.Trace.Segments)
        {
            FigureContext context = new(input, segment);
            foreach ((string of, Draw draw) in Kinds)
                Take($"{of}, repeat {segment.Repeat}", () => draw(context).Select(p => p with { Name = $"{p.Name}-{segment.Repeat}", Title = $"{p.Title}, repeat {segment.Repeat}" }));
        }

        if (added is { } more)
            Take("the added inertia", () => [SpeedPictures.AddedInertia(input, more)]);
        return (pictures, reasons);

        void Take(string of, Func<IEnumerable<FitPicture>> draw)
        {
            try
            {
                pictures.AddRange(draw());
            }
            catch (Exception e) when (e is NoFigureException or FitFailedException)
            {
                reasons.Add($"no picture of {of}: {e.Message}");
            }
        }
    }
}
