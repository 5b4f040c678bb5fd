using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;

namespace RigControl.Analysis.Pictures;

/// <summary>Every fit that a run's data support, each as a picture; fits that fail are left out with their reason.</summary>
public static class FitPictures
{
    private delegate IEnumerable<FitPicture> Draw(FigureContext context);

    private static readonly (string Of, Draw Draw)[] Kinds =
    [
        ("spin-up", SpeedPictures.SpinUp), ("coast-down", SpeedPictures.CoastDown), ("torque", SpeedPictures.Torque),
        ("motor", DrivePictures.Motor), ("pack", DrivePictures.Pack), ("heating", HeatPictures.Heating), ("cooling", HeatPictures.Cooling),
    ];

    /// <param name="input">As for the figures.</param>
    /// <returns>Pictures in order of repeat, and a sentence for each that cannot be had.</returns>
    public static (IReadOnlyList<FitPicture> Pictures, IReadOnlyList<string> Reasons) Of(FigureInput input)
    {
        List<FitPicture> pictures = [];
        List<string> reasons = [];
        foreach (Traces.Segment segment in input.Trace.Segments)
        {
            FigureContext context = new(input, segment);
            foreach ((string of, Draw draw) in Kinds)
            {
                try
                {
                    pictures.AddRange(draw(context).Select(p => p with { Name = $"{p.Name}-{segment.Repeat}", Title = $"{p.Title}, repeat {segment.Repeat}" }));
                }
                catch (Exception e) when (e is NoFigureException or FitFailedException)
                {
                    reasons.Add($"no picture of {of}, repeat {segment.Repeat}: {e.Message}");
                }
            }
        }

        return (pictures, reasons);
    }
}
