using System.Text;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Pictures;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Documents;
using RigControl.Logbook;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Reports.Plots;

namespace RigControl.Cli.Reporting;

/// <summary>A file for every fit that a run's data support.</summary>
internal static class FitFiles
{
    /// <param name="file">Its stem begins the name of every file.</param>
    /// <param name="ending">.png or .svg.</param>
    public static int Write(LogbookFile book, string run, string file, string ending)
    {
        RunHeader header = book.Header(run);
        Article? article = DocumentReader.ReadArticle(header.Article.Text, "recorded article").Value;
        Procedure? procedure = DocumentReader.ReadProcedure(header.Procedure.Text, "recorded procedure").Value;
        double rest = procedure is null ? FigureContext.UsualRestSpeed : FigureContext.RestSpeedOf(procedure);
        var (pictures, reasons) = FitPictures.Of(new FigureInput(Reckoning.TraceOf(book, header, book.Events(run)), article, rest));
        string stem = Path.Combine(Path.GetDirectoryName(file) ?? "", Path.GetFileNameWithoutExtension(file));
        foreach (FitPicture picture in pictures)
            Console.WriteLine($"{Draw(picture with { Title = $"{picture.Title} of run {run}{(header.Simulated ? ", simulated" : "")}" }, $"{stem}-{picture.Name}{ending}", ending)} written");
        foreach (string reason in reasons)
            Console.WriteLine(reason);
        return pictures.Count > 0 ? ExitCode.Done : throw new CliException(ExitCode.BadInput, $"run {run} has no fit to draw");
    }

    /// <summary>Which kind of picture a file's name asks for: .png or .svg.</summary>
    /// <exception cref="CliException">Neither.</exception>
    public static string EndingOf(string file) => Path.GetExtension(file).ToLowerInvariant() is ".png" or ".svg"
        ? Path.GetExtension(file).ToLowerInvariant()
        : throw new CliException(ExitCode.BadInput, $"{file} ends neither in .png nor in .svg: name a file that does");

    /// <summary>Draws one picture into a file, and tells where it lies.</summary>
    public static string Draw(FitPicture picture, string file, string ending)
    {
        try
        {
            byte[] drawn = ending == ".png" ? FitPlot.Png(picture) : Encoding.UTF8.GetBytes(FitPlot.Svg(picture, "p"));
            using FileStream stream = OutputFile.Create(file);
            stream.Write(drawn);
            return Path.GetFullPath(file);
        }
        catch (PlotException e)
        {
            throw new CliException(ExitCode.BadInput, e.Message);
        }
    }
}
