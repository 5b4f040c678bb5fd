using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Rigs;

/// <summary>Reads the devices of a rig, one after the other; ids and channel names may not come twice.</summary>
internal sealed class DeviceReader(IReadOnlyDictionary<string, PluginKind> kinds, ProblemList problems)
{
    private readonly PluginReader plugins = new("device", kinds, problems);
    private readonly HashSet<string> channels = [];

    public DeviceDefinition? Read(Node node)
    {
        if (Fields.Of(node, "the device", problems) is not { } fields)
            return null;
        string? id = plugins.Id(fields);
        (string? plugin, IReadOnlyDictionary<string, object> options) = plugins.Options(fields);
        IReadOnlyDictionary<string, string> renamed = Channels(fields.Optional("channels"));
        fields.Close();
        return id is null || plugin is null ? null : new(id, plugin, options, renamed);
    }

    private Dictionary<string, string> Channels(Node? node)
    {
        Dictionary<string, string> renamed = [];
        if (Fields.Of(node, "the channels", problems) is not { } fields)
            return renamed;
        foreach (Entry entry in fields.Entries)
        {
            WordFields.Channel(new TextNode(entry.KeyPlace, entry.Key, quoted: true), problems);
            if (WordFields.Channel(entry.Value, problems) is not { } name)
                continue;
            if (!channels.Add(name))
                problems.Add(entry.Value.Place, $"another channel is already named {name}", "give each channel of the rig its own name");
            renamed[entry.Key] = name;
        }
        return renamed;
    }
}
