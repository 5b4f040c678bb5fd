using System.Security.Cryptography;
using System.Text;
using RigControl.Mutants.Changing;
using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Kernel;

/// <summary>
/// Mutants that were caught, line by line, beside the program: a run that was broken off, or is made again with more tests, need not
/// try them once more. An entry counts only while its file stands as it did; tests are only added meanwhile.
/// </summary>
internal sealed class Journal
{
    private static readonly string Place = Path.Combine(AppContext.BaseDirectory, "caught.txt");

    private readonly Dictionary<string, string> _caught;

    /// <param name="resume">Whether what is there counts; else it is begun anew.</param>
    public Journal(bool resume)
    {
        if (!resume)
            File.Delete(Place);
        _caught = File.Exists(Place) ? File.ReadLines(Place).Select(l => l.Split('\t')).ToDictionary(l => l[0], l => l[1]) : [];
    }

    /// <summary>The verdict of an earlier run; null where the mutant was not caught, or its file has changed since.</summary>
    public Verdict? Known(Mutation mutation) => _caught.TryGetValue(Key(mutation), out string? by) ? new Verdict(true, by) : null;

    public void Add(Tried tried)
    {
        if (!tried.Verdict.IsCaught || !_caught.TryAdd(Key(tried.Mutation), tried.Verdict.By))
            return;
        File.AppendAllText(Place, $"{Key(tried.Mutation)}\t{tried.Verdict.By}\n");
    }

    private static string Key(Mutation mutation) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(
        $"{mutation.File} {mutation.Span} {mutation.Kind} {mutation.After} {Checkout.Read(mutation.File)}")));
}
