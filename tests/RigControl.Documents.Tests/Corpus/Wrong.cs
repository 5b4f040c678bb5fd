using RigControl.Documents.Tests.Support;

namespace RigControl.Documents.Tests.Corpus;

/// <summary>A file with something wrong: a file in order with one passage changed, and what must be said about it.</summary>
/// <param name="Name">What is wrong, for the list of tests.</param>
/// <param name="Before">A passage that stands exactly once in the file in order.</param>
/// <param name="After">What stands there instead.</param>
/// <param name="SeenBySchema">Whether a JSON Schema can express the rule as well.</param>
/// <param name="Problems">Every problem, as <c>line:column: what; remedy</c>.</param>
public sealed record Wrong(string Name, string Before, string After, bool SeenBySchema, params string[] Problems)
{
    public string In(string sample)
    {
        int first = sample.IndexOf(Before, StringComparison.Ordinal);
        if (first < 0 || sample.IndexOf(Before, first + 1, StringComparison.Ordinal) >= 0)
            throw new InvalidOperationException($"`{Before}` does not stand exactly once in the sample for: {Name}");
        return sample.Replace(Before, After, StringComparison.Ordinal);
    }

    public IEnumerable<string> Of(DocumentKind kind)
    {
        IReadOnlyList<Problem> found = kind switch
        {
            DocumentKind.Procedure => DocumentReader.ReadProcedure(In(Samples.Procedure), "f").Problems,
            DocumentKind.Article => DocumentReader.ReadArticle(In(Samples.Article), "f").Problems,
            DocumentKind.Rules => DocumentReader.ReadRules(In(Samples.Rules), "f").Problems,
            _ => DocumentReader.ReadRig(In(Samples.Rig), "f", Samples.Kinds).Problems,
        };
        return found.Select(p => p.ToString()["f:".Length..]);
    }

    public override string ToString() => Name;
}
