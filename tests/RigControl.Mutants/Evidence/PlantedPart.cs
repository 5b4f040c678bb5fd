using System.Text;
using RigControl.Mutants.Planted;
using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Evidence;

/// <summary>The part of the page that is about planted defects.</summary>
public static class PlantedPart
{
    public const string Title = "Planted defects";

    public static string Text(IReadOnlyList<(PlantedDefect Defect, Verdict Verdict)> tried)
    {
        StringBuilder text = new();
        text.Line($"Written by `dotnet run -c Release --project tests/RigControl.Mutants -- planted --evidence` on {DateTime.UtcNow:yyyy-MM-dd}.");
        text.Line($"What is planted stands in `tests/RigControl.Mutants/planted.json`; one table for each of the test projects that must notice.\n");
        text.Line($"**{tried.Count(t => t.Verdict.IsCaught)} of {tried.Count} caught.**");
        foreach (var project in tried.GroupBy(t => t.Defect.Noticed))
        {
            text.Line($"\n### Noticed by {project.Key}\n\n| in | what is wrong | caught by |\n|---|---|---|");
            foreach ((PlantedDefect defect, Verdict verdict) in project)
                text.Line($"| {Path.GetFileName(defect.File)} | {defect.Wrong} | {(verdict.IsCaught ? verdict.By : "**nobody**")} |");
        }

        return text.ToString();
    }
}
