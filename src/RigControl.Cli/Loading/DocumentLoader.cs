using RigControl.Documents;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Loading;

/// <summary>Reads the three documents of a run from files or from a record, with every problem at once.</summary>
internal sealed class DocumentLoader(PluginCatalog catalog)
{
    private const string RecordedRig = "recorded rig";

    private static readonly (string, string?) Looking = ("looking", "procedure: looking\nrequires: []\nsteps: [{ rest: { for: 1 s } }]");

    private readonly List<string> _problems = [];
    private Reading<Procedure>? _procedure;

    /// <summary>Folder of the ready-made files beside the program.</summary>
    public static string SampleFolder => Path.Combine(AppContext.BaseDirectory, "procedures");

    public static string SimulatedRig => Path.Combine(SampleFolder, "simulated.rig.yaml");

    public static string SampleArticle => Path.Combine(SampleFolder, "disc-180.article.yaml");

    public static string SampleProcedure => Path.Combine(SampleFolder, "enclosed-spin-up.yaml");

    /// <exception cref="CliException">With all problems of all files, exit code 2.</exception>
    public RigDocuments FromFiles(string rig, string article, string procedure) =>
        Load((rig, ReadText(rig)), (article, ReadText(article)), (procedure, ReadText(procedure)));

    /// <summary>Rig and article with a procedure that energises nothing, for sessions that only look.</summary>
    /// <exception cref="CliException">With all problems of both files, exit code 2.</exception>
    public RigDocuments ForLooking(string rig, string article) =>
        Load((rig, ReadText(rig)), (article, ReadText(article)), Looking);

    /// <exception cref="CliException">When the documents of the record no longer read, exit code 2.</exception>
    public RigDocuments FromRecord(RunHeader header) => FromRecord(header, []);

    /// <summary>The documents of a record, some of them replaced by files: each by what kind it is.</summary>
    /// <exception cref="CliException">A file is of no such kind, or the documents no longer read together; exit code 2.</exception>
    public RigDocuments FromRecord(RunHeader header, IReadOnlyList<string> changed)
    {
        (string, string?)[] documents = [(RecordedRig, header.Rig.Text), ("recorded article", header.Article.Text), ("recorded procedure", header.Procedure.Text)];
        foreach (string file in changed)
        {
            string? text = ReadText(file);
            int place = Array.IndexOf([DocumentKind.Rig, DocumentKind.Article, DocumentKind.Procedure], text is null ? DocumentKind.Unknown : DocumentReader.KindOf(text));
            if (place >= 0)
                documents[place] = (file, text);
            else if (text is not null)
                _problems.Add($"{file}: this is no rig, article or procedure file; give one that changes the run");
        }

        // The steps of a verification follow from rig and article; its record keeps no procedure file.
        bool verifies = VerificationPlan.Of(header.Procedure) is not null && documents[2].Item1 == "recorded procedure";
        RigDocuments read = Load(documents[0], documents[1], verifies ? Looking : documents[2]);
        return verifies ? read with { ProcedureText = header.Procedure } : read;
    }

    /// <summary>A rig file alone.</summary>
    /// <exception cref="CliException">With all its problems, exit code 2.</exception>
    public RigDefinition Rig(string file) =>
        Read((file, ReadText(file)), ReadRig)?.Value ?? throw new CliException(ExitCode.BadInput, _problems);

    /// <summary>A file's text; <c>-</c> is standard input. What cannot be read is a problem.</summary>
    public string? ReadText(string file)
    {
        try
        {
            return file == "-" ? Console.In.ReadToEnd() : File.ReadAllText(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            _problems.Add(File.Exists(file) ? $"{file}: cannot be read: {e.Message}" : $"{file}: there is no such file; name one that exists");
            return null;
        }
    }

    /// <summary>Holds what the procedure waits for against the channels that the opened devices supply.</summary>
    /// <exception cref="CliException">With all problems, exit code 2.</exception>
    public void Check(IReadOnlyList<Channel> channels)
    {
        Note(CrossCheck.Procedure(_procedure!.Value!, _procedure.Places, channels));
        if (_problems.Count > 0)
            throw new CliException(ExitCode.BadInput, _problems);
    }

    private RigDocuments Load((string Name, string? Text) rig, (string Name, string? Text) article, (string Name, string? Text) procedure)
    {
        RigDefinition? theRig = Read(rig, ReadRig)?.Value;
        Article? theArticle = Read(article, DocumentReader.ReadArticle)?.Value;
        Reading<Procedure>? reading = Read(procedure, DocumentReader.ReadProcedure);
        if (reading?.Value is { } p && theRig is not null)
            Note(CrossCheck.Procedure(p, reading.Places, theRig));
        if (reading?.Value is { } q && theArticle is not null)
            Note(CrossCheck.Procedure(q, reading.Places, theArticle));
        if (_problems.Count > 0 || theRig is null || theArticle is null || reading?.Value is not { } theProcedure)
            throw new CliException(ExitCode.BadInput, _problems);
        _procedure = reading;
        return new RigDocuments(
            theRig, new DocumentCopy(theRig.Name, rig.Text!), theArticle, new DocumentCopy(theArticle.Name, article.Text!),
            theProcedure, new DocumentCopy(theProcedure.Name, procedure.Text!));
    }

    // What was recorded drives nothing any more, and goes on being told as it was.
    private Reading<RigDefinition> ReadRig(string text, string file) =>
        file == RecordedRig ? DocumentReader.ReadRig(text, file, catalog.Kinds) : RigFile.Read(text, file, catalog);

    private Reading<T>? Read<T>((string Name, string? Text) document, Func<string, string, Reading<T>> read)
        where T : class
    {
        if (document.Text is null)
            return null;
        Reading<T> reading = read(document.Text, document.Name);
        Note(reading.Problems);
        return reading;
    }

    private void Note(IReadOnlyList<Problem> problems) => _problems.AddRange(problems.Select(p => p.ToString()));
}
