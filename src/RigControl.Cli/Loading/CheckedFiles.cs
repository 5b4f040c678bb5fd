using RigControl.Analysis.Figures;
using RigControl.Documents;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;

namespace RigControl.Cli.Loading;

/// <summary>The files of one <c>check</c> that are in order by themselves.</summary>
internal sealed class CheckedFiles
{
    public List<Reading<Procedure>> Procedures { get; } = [];

    /// <summary>What the figures of each of the procedures are asked at, in the same order.</summary>
    public List<AskedAt> Asked { get; } = [];

    public List<Article> Articles { get; } = [];

    public List<RigDefinition> Rigs { get; } = [];

    public List<EventRules> Rules { get; } = [];

    public void Add(Reading<Procedure> procedure, AskedAt asked)
    {
        Procedures.Add(procedure);
        Asked.Add(asked);
    }
}
