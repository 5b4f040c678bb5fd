using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Rigs;

/// <summary>Reads what devices and interlocks have in common: an id, the plugin that makes them, and its options.</summary>
/// <param name="what">device or interlock, for sentences.</param>
internal sealed class PluginReader(string what, IReadOnlyDictionary<string, PluginKind> kinds, ProblemList problems)
{
    private static readonly Dictionary<string, object> None = [];

    private readonly HashSet<string> ids = [];

    /// <summary>The id, which no other of the list has.</summary>
    public string? Id(Fields fields)
    {
        string? id = fields.Name("id");
        if (id is not null && !ids.Add(id))
            problems.Add(fields.PlaceOf("id"), $"another {what} already has the id `{id}`", $"give each {what} its own id");
        return id;
    }

    /// <summary>The plugin's name and the options for it: those written, and the defaults of those left out.</summary>
    public (string? Plugin, IReadOnlyDictionary<string, object> Options) Options(Fields fields)
    {
        Node? node = fields.Required("plugin", $"the kind of {what}, {Words.Either(kinds.Keys.Order())}");
        Node? options = fields.Optional("options");
        if (WordFields.TextOf(node, $"the kind of {what}", problems) is not { } plugin)
            return (null, None);
        if (kinds.TryGetValue(plugin, out PluginKind? kind))
            return (plugin, OptionReader.Read(kind, options, fields.Place, problems));
        problems.Add(node!.Place, $"there is no {what} plugin {Words.Quote(plugin)}", Installed(plugin));
        return (null, None);
    }

    private string Installed(string plugin)
    {
        if (kinds.Count == 0)
            return $"install one; there is no {what} plugin at all";
        string all = string.Join(", ", kinds.Keys.Order());
        return Nearest.Of(plugin, kinds.Keys) is { } near ? $"write `{near}`; there are {all}" : $"write one of {all}";
    }
}
