using System.Text;
using RigControl.Mutants.Changing;
using RigControl.Mutants.Kernel;

namespace RigControl.Mutants.Evidence;

/// <summary>The part of the page that is about mutants of the kernel.</summary>
public static class KernelPart
{
    public const string Title = "Mutants of the kernel";

    public static string Text(IReadOnlyList<Tried> tried, int places, int seed, int asked, bool quick)
    {
        Score score = new(tried);
        StringBuilder text = new();
        text.Line($"Written by `dotnet run -c Release --project tests/RigControl.Mutants -- kernel {asked} {seed}{(quick ? " --quick" : "")} --evidence` on {DateTime.UtcNow:yyyy-MM-dd}.");
        text.Line($"Every usual mistake in every place of `src/RigControl.Kernel` is one mutant: {places} of them, some of which no compiler takes.");
        text.Line($"The seed puts them in an order, and the first {tried.Count} that can be compiled were tried against `tests/RigControl.Kernel.Tests`:");
        string exploration = quick ? "the exploration, which takes a minute for each, was left out" : "the whole exploration for what is left";
        text.Line($"quick tests first, then the random runs; {exploration}. Texts and attributes are not changed.\n");
        text.Line($"**{score}**\n");
        text.Line($"| mistake | tried | caught |\n|---|---|---|");
        foreach (var kind in tried.GroupBy(t => t.Mutation.Kind).OrderBy(g => g.Key, StringComparer.Ordinal))
            text.Line($"| {kind.Key} | {kind.Count()} | {kind.Count(t => t.Verdict.IsCaught)} |");
        AddNoticed(text, tried);
        AddLeft(text, "Not caught, and not known to be the same", score.Missed, _ => null);
        AddLeft(text, "Not to be told apart from the kernel as it is", score.Same, t => Equivalent.WhyNot(t.Mutation));
        return text.ToString();
    }

    private static void AddNoticed(StringBuilder text, IReadOnlyList<Tried> tried)
    {
        text.Line($"\n| test class | mutants that it was the first to notice |\n|---|---|");
        foreach (var by in tried.Where(t => t.Verdict.IsCaught).GroupBy(t => t.Verdict.By.Split('.')[0]).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal))
            text.Line($"| {by.Key} | {by.Count()} |");
    }

    private static void AddLeft(StringBuilder text, string title, IReadOnlyList<Tried> left, Func<Tried, string?> why)
    {
        text.Line($"\n### {title}\n");
        if (left.Count == 0)
        {
            text.Line($"None.");
            return;
        }

        text.Line($"| where | line | mistake | why |\n|---|---|---|---|");
        foreach (Tried one in left)
        {
            Mutation m = one.Mutation;
            text.Line($"| {Path.GetFileName(m.File)}:{m.Line} | {Page.Code(m.Source)} | {m.Kind}: {Page.Code(m.Before)} → {Page.Code(m.After)} | {why(one)} |");
        }
    }
}
