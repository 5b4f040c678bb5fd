using System.Text;
using RigControl.Analysis.Traces;
using RigControl.Documents;
using RigControl.Documents.Traces;
using RigControl.Model.Rig;

namespace RigControl.Cli.Loading;

/// <summary>Reads what <c>analyze</c> and <c>import</c> are given. Whatever is wrong is exit code 2 with its place.</summary>
internal static class TraceFile
{
    /// <param name="file">A path; <c>-</c> is standard input.</param>
    /// <exception cref="CliException">It cannot be read or is no trace.</exception>
    public static RecordedTrace Read(string file)
    {
        try
        {
            using TextReader text = file == "-" ? new StreamReader(Console.OpenStandardInput(), Encoding.UTF8) : new StreamReader(file, Encoding.UTF8);
            Reading<RecordedTrace> reading = TraceReader.Read(text, file);
            return reading.Value ?? throw new CliException(ExitCode.BadInput, [.. reading.Problems.Select(p => p.ToString())]);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{file}: cannot be read: {e.Message.TrimEnd('.')}; name a trace that exists and may be read");
        }
    }

    /// <summary>An article file with its text.</summary>
    /// <exception cref="CliException">It cannot be read or is no article.</exception>
    public static (Article Article, string Text) Article(string file)
    {
        try
        {
            string text = File.ReadAllText(file);
            Reading<Article> reading = DocumentReader.ReadArticle(text, file);
            return (reading.Value ?? throw new CliException(ExitCode.BadInput, [.. reading.Problems.Select(p => p.ToString())]), text);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{file}: cannot be read: {e.Message.TrimEnd('.')}; name an article file that exists and may be read");
        }
    }

    public static Dictionary<string, Series> TraceOf(RecordedTrace recorded) =>
        recorded.Channels.ToDictionary(c => c.Name, c => new Series(c.Unit, 0, c.Times, c.Values));
}
