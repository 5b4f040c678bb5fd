using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Rigs;

/// <summary>Reads the interlocks of a rig, one after the other; ids may not come twice.</summary>
internal sealed class InterlockReader(IReadOnlyDictionary<string, PluginKind> kinds, ProblemList problems)
{
    private readonly PluginReader plugins = new("interlock", kinds, problems);

    public InterlockDefinition? Read(Node node)
    {
        if (Fields.Of(node, "the interlock", problems) is not { } fields)
            return null;
        string? id = plugins.Id(fields);
        (string? plugin, IReadOnlyDictionary<string, object> options) = plugins.Options(fields);
        // An interlock that asks for nothing would be none.
        DemandAction? action = WordFields.Choice(fields.Optional("action"), problems, DemandAction.Proceed);
        ResetPolicy? reset = WordFields.Choice<ResetPolicy>(fields.Optional("reset"), problems);
        InterlockScope? scope = WordFields.Choice<InterlockScope>(fields.Optional("scope"), problems);
        fields.Close();
        return id is null || plugin is null ? null : new(id, plugin, options, action, reset, scope ?? InterlockScope.EveryStep);
    }
}
