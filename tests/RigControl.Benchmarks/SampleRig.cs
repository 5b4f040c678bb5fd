using RigControl.Documents;
using RigControl.Model.Records;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Benchmarks;

/// <summary>The simulated rig that comes with the host, with a procedure of one's own.</summary>
internal static class SampleRig
{
    private static string Folder => Path.Combine(AppContext.BaseDirectory, "procedures");

    public static PluginCatalog Catalog { get; } = PluginCatalog.Load(PluginCatalog.DefaultFolder);

    /// <summary>A procedure that holds a level.</summary>
    /// <param name="seconds">How long.</param>
    public static string Holding(double seconds) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $$"""
        procedure: long-hold
        repeat: 1
        requires: [lid-closed]
        steps:
          - arm: { within: 10 s }
          - spin-up: { throttle: 20 %, ramp: 1 s, until: { channel: rotor.speed, above: 1000 rpm }, timeout: 8 s }
          - hold: { for: {{seconds}} s }
          - coast-down: { until: { channel: rotor.speed, below: 60 rpm }, timeout: 60 s }
        figures: []
        """);

    /// <param name="procedure">Instead of the one that comes with the host.</param>
    /// <param name="rate">Scans a second, Hz.</param>
    /// <param name="inertia">Of the rotor, instead of the article's own.</param>
    public static RigDocuments Documents(string? procedure = null, int rate = 200, string inertia = "0.00018225 kg.m2")
    {
        string rig = File.ReadAllText(Path.Combine(Folder, "simulated.rig.yaml")).Replace("scan: 200 Hz", $"scan: {rate} Hz", StringComparison.Ordinal);
        string article = File.ReadAllText(Path.Combine(Folder, "disc-180.article.yaml")).Replace("0.00018225 kg.m2", inertia, StringComparison.Ordinal);
        string text = procedure ?? File.ReadAllText(Path.Combine(Folder, "enclosed-spin-up.yaml"));
        return new RigDocuments(
            Need(DocumentReader.ReadRig(rig, "rig", Catalog.Kinds)), new DocumentCopy("rig", rig),
            Need(DocumentReader.ReadArticle(article, "article")), new DocumentCopy("article", article),
            Need(DocumentReader.ReadProcedure(text, "procedure")), new DocumentCopy("procedure", text));
    }

    public static AssembledRig Assemble(RigDocuments documents) => new RigAssembler(Catalog, TimeProvider.System).Assemble(documents, 1);

    /// <summary>Head of a run on a rig.</summary>
    public static RunHeader Header(AssembledRig rig) => new()
    {
        Run = "benchmark", StartedAt = DateTimeOffset.UtcNow, Simulated = true, Seed = 1, Operator = "scripted", Software = "benchmark",
        Procedure = rig.Documents.ProcedureText, Rig = rig.Documents.RigText, Article = rig.Documents.ArticleText, Plugins = rig.PluginIdentities,
        Devices = rig.DeviceIdentities, Interlocks = rig.InterlockIdentities, Channels = rig.Channels,
    };

    private static T Need<T>(Reading<T> reading)
        where T : class => reading.Value ?? throw new InvalidOperationException(string.Join(Environment.NewLine, reading.Problems));
}
