using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using RigControl.Cli.Output;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Rehearsal.Results;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Rehearsals;

/// <summary>The JSON document of <c>rehearse</c>, and what a run takes back from it.</summary>
internal static class RehearsalDocument
{
    /// <summary>Most bytes of a rehearsal that is read back: many times the longest that is written.</summary>
    private const int MostBytes = 64 << 20;

    public static string Write(RigDocuments documents, RehearsalResult result) => JsonText.Of(new
    {
        rehearsal = documents.Procedure.Name,
        article = documents.Article.Name,
        rig = documents.Rig.Name,
        of = Digest(documents),
        samples = result.Samples,
        completed = result.Completed,
        seconds = Math.Round(result.Seconds, 3),
        refusals = result.Refusals,
        figures = result.Figures.Select(f => new
        {
            name = f.Name, of = f.Of, unit = f.Unit, repeat = f.Repeat, median = f.Median,
            interval95 = f.Interval95 is { } i ? new[] { i.Low, i.High } : null, note = f.Note,
        }),
        margins = result.Margins.Select(m => new { interlock = m.Interlock, median = m.Median, lowest = m.Lowest, trips = m.Trips, closest = m.Closest }),
        stops = result.Stops.Select(s => new { interlock = s.Interlock, step = s.Step, share = s.Share, example = s.Example }),
        bands = result.Bands.Select(b => new
        {
            channel = b.Channel, stretch = b.Stretch.TotalSeconds,
            steps = b.Steps.Select(s => new { low = s.Low.Select(Short), high = s.High.Select(Short) }),
        }),
        notes = result.Notes,
    });

    /// <summary>Takes a rehearsal's bands and text over into a run's documents.</summary>
    /// <exception cref="CliException">The file is none, or is of another procedure, article or rig; exit code 2.</exception>
    public static RigDocuments Into(RigDocuments documents, string file)
    {
        string text = ReadText(file);
        try
        {
            using JsonDocument read = JsonDocument.Parse(text);
            if (read.RootElement.GetProperty("of").GetString() != Digest(documents))
                throw new CliException(ExitCode.BadInput, $"{file} is a rehearsal of other files than these; rehearse again with --out {file}");
            string name = read.RootElement.GetProperty("rehearsal").GetString() ?? "";
            return documents with { Rehearsed = [.. Bands(read.RootElement)], RehearsalText = new DocumentCopy(name, text) };
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException or OverflowException)
        {
            throw new CliException(ExitCode.BadInput, $"{file} is no rehearsal ({e.Message}); write one with rehearse --out");
        }
    }

    /// <summary>The same from the record of a run; without a rehearsal nothing changes.</summary>
    public static RigDocuments Into(RigDocuments documents, DocumentCopy? recorded)
    {
        if (recorded is null)
            return documents;
        using JsonDocument read = JsonDocument.Parse(recorded.Text);
        return documents with { Rehearsed = [.. Bands(read.RootElement)], RehearsalText = recorded };
    }

    private static string ReadText(string file)
    {
        try
        {
            return new FileInfo(file).Length <= MostBytes
                ? File.ReadAllText(file)
                : throw new CliException(ExitCode.BadInput, $"{file} is too large for a rehearsal; write one with rehearse --out");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{file}: cannot be read: {e.Message.TrimEnd('.')}; write a rehearsal with rehearse --out");
        }
    }

    // The rehearsal stands for these files and no others: what was changed since was not rehearsed.
    private static string Digest(RigDocuments documents) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(
        string.Join('\0', documents.RigText.Text, documents.ArticleText.Text, documents.ProcedureText.Text))));

    private static IEnumerable<RehearsedBand> Bands(JsonElement root)
    {
        foreach (JsonElement band in root.GetProperty("bands").EnumerateArray())
        {
            List<BandStep> steps = [.. band.GetProperty("steps").EnumerateArray().Select(s => new BandStep(Numbers(s, "low"), Numbers(s, "high")))];
            if (steps.Any(s => s.Low.Count != s.High.Count))
                throw new FormatException("a band has not as many lows as highs");
            TimeSpan stretch = TimeSpan.FromSeconds(band.GetProperty("stretch").GetDouble());
            if (stretch <= TimeSpan.Zero)
                throw new FormatException("a band's stretch is not above 0 s");
            yield return new RehearsedBand(band.GetProperty("channel").GetString() ?? "", stretch, steps);
        }
    }

    private static double[] Numbers(JsonElement step, string name) => [.. step.GetProperty(name).EnumerateArray().Select(v => v.GetDouble())];

    // Seven digits are more than any sensor has, and half the file.
    private static double Short(double value) => value == 0 || !double.IsFinite(value) ? value : Math.Round(value, Math.Clamp(6 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 15));
}
