using RigControl.Documents;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;

namespace RigControl.Cli.Loading;

/// <summary>The files of one <c>check</c> that are in order by themselves.</summary>
internal sealed class CheckedFiles
{
    public List<Reading<Procedure>> Procedures { get; } = [];

    public List<Article> Articles { get; } = [];

    public List<RigDefinition> Rigs { get; } = [];

    public List<EventRules> Rules { get; } = [];
}
