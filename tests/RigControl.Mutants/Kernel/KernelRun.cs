using System.Collections.Concurrent;
using RigControl.Mutants.Changing;
using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Kernel;

/// <summary>Tries mutants of the kernel, some side by side, each in a copy of the kernel's tests.</summary>
/// <param name="count">How many that can be compiled.</param>
/// <param name="seed">Which.</param>
/// <param name="resume">Whether what an earlier run caught counts as caught.</param>
/// <param name="quick">Whether the exploration is left out.</param>
public sealed class KernelRun(int count, int seed, bool resume, bool quick)
{
    private const string Tests = "RigControl.Kernel.Tests";
    private const int SideBySide = 2;

    /// <summary>All that were tried, by file and line.</summary>
    /// <param name="tell">Is given every one as soon as it is known.</param>
    /// <exception cref="InvalidOperationException">The tests are not content with the kernel as it is: then nothing can be learned from them.</exception>
    public IReadOnlyList<Tried> Run(Action<Tried> tell)
    {
        Sample sample = new();
        Journal journal = new(resume);
        ConcurrentBag<TestCopy> copies = [.. Enumerable.Range(0, SideBySide).Select(_ => new TestCopy(Tests))];
        ConcurrentBag<Tried> tried = [];
        try
        {
            TryUnchanged(sample, copies.First());
            Parallel.ForEach(sample.Choose(count, seed), new ParallelOptions { MaxDegreeOfParallelism = SideBySide }, mutant =>
            {
                Tried one = new(mutant.Mutation, journal.Known(mutant.Mutation) ?? Try(sample.AssemblyFile, mutant.Assembly, copies));
                tried.Add(one);
                lock (journal)
                {
                    journal.Add(one);
                    tell(one);
                }
            });
        }
        finally
        {
            foreach (TestCopy copy in copies)
                copy.Dispose();
        }

        return [.. tried.OrderBy(t => t.Mutation.File, StringComparer.Ordinal).ThenBy(t => t.Mutation.Span.Start).ThenBy(t => t.Mutation.After, StringComparer.Ordinal)];
    }

    private Verdict Try(string name, byte[] assembly, ConcurrentBag<TestCopy> copies)
    {
        if (!copies.TryTake(out TestCopy? copy))
            copy = new TestCopy(Tests);
        copy.Lay(name, assembly);
        Verdict verdict = Stages.Run(copy, quick);
        copies.Add(copy);
        return verdict;
    }

    private void TryUnchanged(Sample sample, TestCopy copy)
    {
        copy.Lay(sample.AssemblyFile, sample.Unchanged());
        if (Stages.Run(copy, quick) is { IsCaught: true } verdict)
            throw new InvalidOperationException($"the tests are not content with the kernel as it is: {verdict.By}");
    }
}
