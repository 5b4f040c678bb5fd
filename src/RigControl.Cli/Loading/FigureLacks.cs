using RigControl.Analysis.Figures;
using RigControl.Documents.Procedures;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;

namespace RigControl.Cli.Loading;

/// <summary>What a figure needs and rig, article or procedure do not have, so that <c>check</c> can say beforehand what a run will not give.</summary>
internal static class FigureLacks
{
    /// <summary>Everything that a figure lacks, each a clause such as <c>the article gives no pack</c>; empty where it can be had.</summary>
    /// <param name="figure">Its name.</param>
    /// <param name="procedure">Null where none is looked at; its steps are then not judged.</param>
    /// <param name="article">Null where none is looked at.</param>
    /// <param name="channels">Names of the rig's channels; null where they are not known.</param>
    /// <param name="rig">Null where none is looked at.</param>
    /// <param name="asked">What the procedure's figures are asked at; null where no procedure is looked at.</param>
    public static IReadOnlyList<string> Of(
        string figure, Procedure? procedure, Article? article, IReadOnlyCollection<string>? channels, RigDefinition? rig = null, AskedAt? asked = null)
    {
        if (FigureCatalog.Needs(figure) is not { } needs)
            return ["this version does not compute it"];
        List<string> lacks = [];
        if (channels is not null)
            lacks.AddRange(OfChannels(needs, channels));
        if (article is not null)
            lacks.AddRange(needs.Declared.Select(p => OfArticle(p, article)).OfType<string>());
        if (procedure is not null)
            lacks.AddRange(needs.Steps.Select(p => OfProcedure(p, procedure)).OfType<string>());
        if (asked is not null)
            lacks.AddRange(needs.Asked.Where(p => !asked.States(p)).Select(Unstated));
        if (rig is not null && needs.Limit && TemperatureCeilings.Of(rig).Count == 0)
            lacks.Add("the rig has no temperature-ceiling, up to which it is asked");
        return lacks;
    }

    private static string Unstated(AskedPart part)
    {
        string what = part switch
        {
            AskedPart.After => $"{FiguresAt.After}: 2 s",
            AskedPart.ToSpeed => $"{FiguresAt.ToSpeed}: 5000 rpm",
            _ => $"{FiguresAt.Match}: 180 s, {FiguresAt.Duty}: 50 %",
        };
        return $"the procedure does not state what it is asked at; write figures-at: {{ {what} }} with your own numbers";
    }

    private static IEnumerable<string> OfChannels(FigureNeeds needs, IReadOnlyCollection<string> channels)
    {
        if (needs.AnyTemperature && !channels.Any(c => c.EndsWith(".temperature", StringComparison.Ordinal)))
            yield return "the rig supplies no temperature";
        foreach (string missing in needs.Channels.Where(c => !channels.Contains(c)))
            yield return $"the rig supplies no {missing}";
    }

    private static string? OfArticle(ArticlePart part, Article article) => part switch
    {
        ArticlePart.Rotor when article.Rotor is null => "the article gives no rotor",
        ArticlePart.NoRotor when article.Rotor is not null => "a rotor is mounted",
        ArticlePart.Pack when article.Pack is null => "the article gives no pack",
        ArticlePart.NoBraking when article.Controller.BrakesAtStop => "the controller brakes at stop",
        _ => null,
    };

    private static string? OfProcedure(RunPart part, Procedure procedure)
    {
        (string name, StepKind[] kinds) = part switch
        {
            RunPart.Rise => ("no spin-up", [StepKind.SpinUp, StepKind.Gate]),
            RunPart.Hold => ("no hold", [StepKind.Hold]),
            RunPart.CoastDown => ("no coast-down", [StepKind.CoastDown]),
            _ => ("nothing that is asked or tried", new[] { StepKind.Ask, StepKind.Trial }),
        };
        return procedure.Steps.Any(s => kinds.Contains(s.Kind)) ? null : $"the procedure has {name}";
    }
}
