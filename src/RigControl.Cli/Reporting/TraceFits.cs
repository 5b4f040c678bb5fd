using RigControl.Analysis.Figures;
using RigControl.Analysis.Pictures;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Cli.Reporting;

/// <summary>A file for every fit that a trace's data support, as <c>plot --fits</c> makes them of a run.</summary>
internal static class TraceFits
{
    /// <param name="added">kg.m2 that the second of two repeats has more; null for none.</param>
    /// <param name="file">Its stem begins the name of every file.</param>
    /// <param name="ending">.png or .svg.</param>
    /// <param name="said">Hears what was written, and why something was not.</param>
    public static void Write(FigureInput input, Input? added, string file, string ending, TextWriter said)
    {
        var (pictures, reasons) = FitPictures.Of(input, added);
        string stem = Path.Combine(Path.GetDirectoryName(file) ?? "", Path.GetFileNameWithoutExtension(file));
        foreach (FitPicture picture in pictures)
            said.WriteLine($"{FitFiles.Draw(picture, $"{stem}-{picture.Name}{ending}", ending)} written");
        foreach (string reason in reasons)
            said.WriteLine(reason);
    }
}
