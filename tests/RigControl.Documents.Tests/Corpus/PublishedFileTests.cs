using System.Text.RegularExpressions;
using RigControl.Documents.Procedures;
using RigControl.Documents.Tests.Support;
using RigControl.Documents.Values;

namespace RigControl.Documents.Tests.Corpus;

/// <summary>What a newcomer copies works: the files that come along, and every example of the document.</summary>
public partial class PublishedFileTests
{
    private const string Document = "docs/procedure-files.md";

    public static TheoryData<string> Published { get; } = [.. Repository.Files("procedures", "*.yaml").Where(f => !f.EndsWith(".rig.yaml", StringComparison.Ordinal))];

    public static TheoryData<string> Examples { get; } = [.. Fences().Matches(Repository.Read(Document)).Select(m => m.Groups[1].Value)];

    [Theory, MemberData(nameof(Published))]
    public void A_file_that_comes_along_is_in_order(string file)
    {
        string text = Repository.Read(file);
        Assert.Empty(DocumentReader.Check(text, file, Samples.Kinds));
        Assert.True(Schemas.Accepts(DocumentReader.KindOf(text), text));
    }

    [Theory, MemberData(nameof(Examples))]
    public void An_example_of_the_document_is_in_order(string text)
    {
        Assert.Empty(DocumentReader.Check(text, Document, Samples.Kinds));
        Assert.True(Schemas.Accepts(DocumentReader.KindOf(text), text));
    }

    [Fact]
    public void The_document_has_an_example_of_each_kind() =>
        Assert.Equal([DocumentKind.Procedure, DocumentKind.Article, DocumentKind.Rig, DocumentKind.Rules],
            Examples.Select(e => DocumentReader.KindOf(e.Data)).Distinct());

    [Fact]
    public void The_enclosed_spin_up_can_be_done_with_the_disc()
    {
        var procedure = DocumentReader.ReadProcedure(Repository.Read("procedures/enclosed-spin-up.yaml"), "p");
        var article = DocumentReader.ReadArticle(Repository.Read("procedures/disc-180.article.yaml"), "a");
        Assert.Empty(CrossCheck.Procedure(procedure.Value!, procedure.Places, article.Value!));
        Assert.Equal(3, procedure.Value!.Repeat);
    }

    [Fact]
    public void The_disc_has_the_inertia_of_a_flat_disc_of_its_mass_and_radius()
    {
        // I = m r^2 / 2 for a uniform disc about its axis; textbook formula, from memory.
        var rotor = DocumentReader.ReadArticle(Repository.Read("procedures/disc-180.article.yaml"), "a").Value!.Rotor!;
        Assert.Equal(rotor.Mass * rotor.TipRadius * rotor.TipRadius / 2, rotor.Inertia, 1e-12);
    }

    [Fact]
    public void The_bench_motor_turns_nothing() =>
        Assert.Null(DocumentReader.ReadArticle(Repository.Read("procedures/bench-motor.article.yaml"), "a").Value!.Rotor);

    [Fact]
    public void The_document_lists_every_unit_with_the_canonical_one_first()
    {
        string[][] rows = [.. UnitRows().Matches(Repository.Read(Document)).Select(row => Code().Matches(row.Value).Select(c => c.Groups[1].Value).ToArray())];
        Assert.Equal(Units.Symbols.Order(), rows.SelectMany(r => r).Where(u => u != "0.5 1").Order());
        Assert.All(rows, row => Assert.All(row.Where(u => u != "0.5 1"), unit => Assert.Equal(row[0], Units.Canonical(unit))));
    }

    [Fact]
    public void The_document_lists_every_figure()
    {
        string listed = Repository.Read(Document).Split("## Figures")[1];
        Assert.Equal(FigureNames.All.Order(), Code().Matches(listed).Select(c => c.Groups[1].Value).Order());
    }

    [GeneratedRegex("```yaml\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Fences();

    [GeneratedRegex(@"(?<=\| measures \| units \|\n\|---\|---\|\n(?:\|.*\n)*)\|.*\n")]
    private static partial Regex UnitRows();

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Code();
}
