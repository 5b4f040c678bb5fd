using RigControl.Analysis.Figures;
using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Physics;
using RigControl.Rehearsal.Bench;

namespace RigControl.Rehearsal;

/// <summary>What is to be rehearsed, ready for the kernel. One plan serves every sample and every thread: nothing in it changes.</summary>
public sealed class RehearsalPlan
{
    private RehearsalPlan(RigDefinition rig, Article article, Procedure procedure, Configuration configuration, IReadOnlyList<string> notModelled)
    {
        (Rig, Article, Procedure, Configuration, NotModelled) = (rig, article, procedure, configuration, notModelled);
        Likely = BenchOfArticle.Build(article, windage: 1, charge: 1, ambient: 20);
        Spread = Spread.Of(article.Uncertainty);
    }

    public RigDefinition Rig { get; }

    public Article Article { get; }

    public Procedure Procedure { get; }

    public Configuration Configuration { get; }

    /// <summary>The bench that the article declares.</summary>
    public BenchParameters Likely { get; }

    /// <summary>How well it is known.</summary>
    public Spread Spread { get; private init; }

    /// <summary>What the procedure's figures are asked at.</summary>
    public AskedAt Asked { get; private init; } = AskedAt.Nothing;

    /// <summary>Interlocks that look at something the model does not have, a sentence each: they are not rehearsed.</summary>
    public IReadOnlyList<string> NotModelled { get; }

    /// <summary>The same plan with the bench known otherwise.</summary>
    public RehearsalPlan Knowing(Spread spread) => new(Rig, Article, Procedure, Configuration, NotModelled) { Spread = spread, Asked = Asked };

    /// <summary>The same plan with its figures asked at what is stated.</summary>
    public RehearsalPlan At(AskedAt asked) => new(Rig, Article, Procedure, Configuration, NotModelled) { Spread = Spread, Asked = asked };

    /// <summary>The channels that the model supplies, in the order of the input image.</summary>
    public static IReadOnlyList<Channel> Channels(RigDefinition rig) => BenchChannels.Declare(rig.ScanPeriod);

    /// <param name="rig">As its file says; its devices are replaced by the model.</param>
    /// <param name="article">As its file says.</param>
    /// <param name="procedure">As its file says.</param>
    /// <param name="interlocks">Made for <see cref="Channels"/>, in the order of the rig file.</param>
    /// <param name="notModelled">Why the others could not be made for them.</param>
    /// <exception cref="ConfigurationException">Every reason at once why the kernel would not run this.</exception>
    public static RehearsalPlan Of(
        RigDefinition rig, Article article, Procedure procedure, IReadOnlyList<BoundInterlock> interlocks, IReadOnlyList<string> notModelled)
    {
        string[] ids = [.. interlocks.Select(i => i.Id)];
        Procedure without = procedure with
        {
            Requires = [.. procedure.Requires.Where(ids.Contains)],
            Steps = [.. procedure.Steps.Select(s => s with
            {
                Permissives = [.. s.Permissives.Where(ids.Contains)], Interlocks = [.. s.Interlocks.Where(ids.Contains)],
            })],
        };
        return new RehearsalPlan(rig, article, without, ConfigurationCompiler.Compile(rig, article, without, Channels(rig), interlocks), notModelled);
    }
}
