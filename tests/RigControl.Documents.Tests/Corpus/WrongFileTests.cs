namespace RigControl.Documents.Tests.Corpus;

/// <summary>Somebody wrote something wrong, and is told what, where, and what to write instead.</summary>
public class WrongFileTests
{
    public static TheoryData<Wrong> Procedures { get; } = [.. WrongProcedures.All];

    public static TheoryData<Wrong> Articles { get; } = [.. WrongArticles.All];

    public static TheoryData<Wrong> Rigs { get; } = [.. WrongRigs.All, .. WrongTelemetry.All, .. WrongGuards.All];

    public static TheoryData<Wrong> Rules { get; } = [.. WrongRules.All];

    [Theory, MemberData(nameof(Procedures), DisableDiscoveryEnumeration = true)]
    public void A_wrong_procedure_is_explained_at_its_place(Wrong wrong) => Assert.Equal(wrong.Problems, wrong.Of(DocumentKind.Procedure));

    [Theory, MemberData(nameof(Articles), DisableDiscoveryEnumeration = true)]
    public void A_wrong_article_is_explained_at_its_place(Wrong wrong) => Assert.Equal(wrong.Problems, wrong.Of(DocumentKind.Article));

    [Theory, MemberData(nameof(Rigs), DisableDiscoveryEnumeration = true)]
    public void A_wrong_rig_is_explained_at_its_place(Wrong wrong) => Assert.Equal(wrong.Problems, wrong.Of(DocumentKind.Rig));

    [Theory, MemberData(nameof(Rules), DisableDiscoveryEnumeration = true)]
    public void A_wrong_rules_file_is_explained_at_its_place(Wrong wrong) => Assert.Equal(wrong.Problems, wrong.Of(DocumentKind.Rules));
}
