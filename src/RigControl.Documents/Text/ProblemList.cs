namespace RigControl.Documents.Text;

/// <summary>Collects the problems of one file.</summary>
internal sealed class ProblemList(string file)
{
    private readonly List<Problem> problems = [];

    public bool IsEmpty => problems.Count == 0;

    public void Add(Place place, string what, string remedy) => problems.Add(new(file, place.Line, place.Column, what, remedy));

    public IReadOnlyList<Problem> Sorted() => [.. problems.Distinct().OrderBy(p => p.Line).ThenBy(p => p.Column)];
}
