using System.Text.RegularExpressions;
using RigControl.Documents.Procedures;
using RigControl.Documents.Tests.Support;
using RigControl.Documents.Values;

namespace RigControl.Documents.Tests.Corpus;

/// <summary>What an editor underlines and what <c>check</c> reports agree, as far as a schema can tell.</summary>
public partial class SchemaTests
{
    public static TheoryData<DocumentKind, Wrong> AllWrong { get; } =
    [
        .. WrongProcedures.All.Select(w => (DocumentKind.Procedure, w)),
        .. WrongArticles.All.Select(w => (DocumentKind.Article, w)),
        .. WrongRigs.All.Select(w => (DocumentKind.Rig, w)),
        .. WrongTelemetry.All.Select(w => (DocumentKind.Rig, w)),
        .. WrongGuards.All.Select(w => (DocumentKind.Rig, w)),
        .. WrongRules.All.Select(w => (DocumentKind.Rules, w)),
    ];

    [Theory, MemberData(nameof(AllWrong), DisableDiscoveryEnumeration = true)]
    public void An_editor_sees_what_a_schema_can_express(DocumentKind kind, Wrong wrong)
    {
        string sample = kind switch
        {
            DocumentKind.Procedure => Samples.Procedure, DocumentKind.Article => Samples.Article, DocumentKind.Rules => Samples.Rules, _ => Samples.Rig,
        };
        bool? accepted = Schemas.Accepts(kind, wrong.In(sample));
        Assert.Equal(wrong.SeenBySchema, accepted == false);
    }

    [Theory]
    [InlineData(DocumentKind.Procedure, Samples.Procedure)]
    [InlineData(DocumentKind.Article, Samples.Article)]
    [InlineData(DocumentKind.Rig, Samples.Rig)]
    [InlineData(DocumentKind.Rules, Samples.Rules)]
    public void An_editor_underlines_nothing_in_a_file_in_order(DocumentKind kind, string text) => Assert.True(Schemas.Accepts(kind, text));

    [Fact]
    public void An_editor_offers_every_figure_that_may_be_named()
    {
        string schema = Repository.Read("shared/schemas/procedure.schema.json");
        string figures = schema[schema.IndexOf("\"figure\": {", StringComparison.Ordinal)..];
        Assert.Equal(FigureNames.All.Order(), Quoted().Matches(figures).Select(m => m.Groups[1].Value).Except(["figure", "enum"]).Order());
    }

    [Fact]
    public void An_editor_knows_every_unit_of_a_condition()
    {
        foreach (string unit in Units.Symbols)
        {
            string text = $"procedure: p\nrequires: []\nsteps: [{{ rest: {{ until: {{ channel: x, above: 1 {unit} }}, timeout: 1 s }} }}]";
            Assert.True(Schemas.Accepts(DocumentKind.Procedure, text), unit);
            Assert.Empty(DocumentReader.ReadProcedure(text, "f").Problems);
        }
    }

    [GeneratedRegex("\"([a-z-]+)\"")]
    private static partial Regex Quoted();
}
