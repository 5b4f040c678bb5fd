namespace RigControl.Mutants.Trying;

/// <summary>A copy of a built test project, in which a changed assembly takes the place of ours. Its folder goes with it.</summary>
public sealed class TestCopy : IDisposable
{
    private readonly string _project;
    private readonly string _folder;

    /// <param name="project">The test project's name, which is its folder below tests/.</param>
    public TestCopy(string project)
    {
        // Below the program's own folder: some tests look for the checkout above theirs.
        _project = project;
        _folder = Path.Combine(AppContext.BaseDirectory, "copies", $"{project}-{Environment.ProcessId}-{Guid.NewGuid():N}");
        string built = Checkout.OutputOf(Path.Combine("tests", project));
        if (!File.Exists(Path.Combine(built, project + ".dll")))
            throw new InvalidOperationException($"{project} has not been built in {Checkout.Build}; build the solution first");
        Checkout.Copy(built, _folder);
    }

    /// <summary>Lays a file over the copy's own.</summary>
    public void Lay(string name, byte[] bytes) => File.WriteAllBytes(Path.Combine(_folder, name), bytes);

    /// <summary>Runs tests until the first that fails.</summary>
    /// <param name="filter">Which tests, in the runner's own words; none for all.</param>
    /// <param name="longest">After this the run counts as never ending.</param>
    public Verdict Run(IEnumerable<string> filter, TimeSpan longest) => Verdict.OfTests(Child.Run(
        Path.Combine(_folder, _project), [.. filter, "--stop-on-fail", "on", "--no-ansi", "--progress", "off"], _folder, longest));

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
