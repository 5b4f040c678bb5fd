using System.Text.RegularExpressions;
using RigControl.Documents.Articles;
using RigControl.Documents.Procedures;
using RigControl.Documents.Rigs;
using RigControl.Documents.Rules;
using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;

namespace RigControl.Documents;

/// <summary>
/// Reads procedure, article, rig and rules files. Nothing here throws on any text; whatever is wrong becomes a <see cref="Problem"/>,
/// and all problems are reported at once.
/// </summary>
public static partial class DocumentReader
{
    /// <summary>Reads a procedure. Interlocks and channels are still names: see <see cref="CrossCheck"/>.</summary>
    public static Reading<Procedure> ReadProcedure(string text, string file) =>
        Read(text, file, DocumentKind.Procedure, ProcedureReader.Read);

    /// <summary>What the figures of a procedure are asked at, by key of <see cref="FiguresAt"/>; empty where it states nothing or cannot be read.</summary>
    public static IReadOnlyDictionary<string, double> ReadFiguresAt(string procedure) =>
        Read(procedure, "procedure", DocumentKind.Procedure, (fields, _) => ProcedureReader.AskedAt(fields)).Value ?? new Dictionary<string, double>();

    /// <summary>Reads an article.</summary>
    public static Reading<Article> ReadArticle(string text, string file) =>
        Read(text, file, DocumentKind.Article, ArticleReader.Read);

    /// <summary>Reads a rig; the options of its devices and interlocks are checked against the installed plugins.</summary>
    public static Reading<RigDefinition> ReadRig(string text, string file, PluginKinds kinds) =>
        Read(text, file, DocumentKind.Rig, (fields, problems) => new RigReader(kinds, problems).Read(fields));

    /// <summary>Reads the limits that a builder copied from an event's rules.</summary>
    public static Reading<EventRules> ReadRules(string text, string file) =>
        Read(text, file, DocumentKind.Rules, RulesReader.Read);

    /// <summary>Every problem of a file of whichever kind; a text of no known kind is a problem itself.</summary>
    public static IReadOnlyList<Problem> Check(string text, string file, PluginKinds kinds) => KindOf(text) switch
    {
        DocumentKind.Procedure => ReadProcedure(text, file).Problems,
        DocumentKind.Article => ReadArticle(text, file).Problems,
        DocumentKind.Rig => ReadRig(text, file, kinds).Problems,
        DocumentKind.Rules => ReadRules(text, file).Problems,
        _ => [new Problem(file, 1, 1, "this is not a procedure, article, rig or rules file", "begin it with `procedure:`, `article:`, `rig:` or `rules:`")],
    };

    /// <summary>The kind of a text by its top key. Looks at lines, not at structure, so that a malformed file still has a kind.</summary>
    public static DocumentKind KindOf(string text)
    {
        Match key = TopKey().Match(text);
        return key.Success ? Words<DocumentKind>.Find(key.Groups[1].Value) ?? DocumentKind.Unknown : DocumentKind.Unknown;
    }

    private static Reading<T> Read<T>(string text, string file, DocumentKind kind, Func<Fields, ProblemList, T?> read)
        where T : class
    {
        var problems = new ProblemList(file);
        Node? root = NodeLoader.Load(text, problems);
        T? value = root is not null && IsOf(kind, root, text, problems) && Fields.Of(root, $"the {Words.Of(kind)} file", problems) is { } fields
            ? read(fields, problems)
            : null;
        return new(problems.IsEmpty ? value : null, problems.Sorted()) { Places = new(file, root) };
    }

    private static bool IsOf(DocumentKind due, Node root, string text, ProblemList problems)
    {
        DocumentKind found = KindOf(text);
        if (found == due || found == DocumentKind.Unknown)
            return true;
        problems.Add(root.Place, $"this is not {Words.OneOf(due)} file but {Words.OneOf(found)} file", $"give {Words.OneOf(due)} file here");
        return false;
    }

    [GeneratedRegex(@"^\uFEFF?\{?[ \t]*[""']?(procedure|article|rig|rules)[""']?[ \t]*:", RegexOptions.Multiline | RegexOptions.CultureInvariant)]
    private static partial Regex TopKey();
}
