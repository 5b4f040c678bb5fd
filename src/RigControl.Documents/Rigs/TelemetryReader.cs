using System.Text.RegularExpressions;
using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Rigs;

/// <summary>Reads where a rig is published. A rig file is copied into every record, so that no secret may stand in it.</summary>
internal sealed partial class TelemetryReader(ProblemList problems)
{
    private static readonly string[] Secrets = ["user", "password", "certificate", "key"];

    public TelemetryDefinition? Read(Node? node)
    {
        // `telemetry:` with nothing behind it takes the default of everything.
        Node? group = node is TextNode { IsNothing: true } ? new MapNode(node.Place, []) : node;
        if (Fields.Of(group, "the telemetry", problems) is not { } fields)
            return null;
        if (RefuseSecrets(fields))
            return null;
        string? site = WordFields.Name(fields.Optional("site"), problems);
        string? broker = Matching(fields.Optional("broker"), HostPattern(), "is not a host's name", "the broker's host alone, such as `broker.workshop.example`, without a port");
        bool tls = WordFields.Switch(fields.Optional("tls"), problems) ?? false;
        long? port = WordFields.Whole(fields.Optional("port"), 1, 65535, problems);
        string? authority = PathOf(fields, "authority");
        string? pin = Matching(fields.Optional("pin"), PinPattern(), "is not a certificate's SHA-256", "64 hexadecimal digits");
        string? secrets = PathOf(fields, "secrets");
        string? users = PathOf(fields, "users");
        fields.Close();
        Check(fields, tls, broker);
        return new TelemetryDefinition
        {
            Site = site ?? new TelemetryDefinition().Site, Broker = broker, Tls = tls, Authority = authority, Pin = pin, Secrets = secrets, Users = users,
            Port = (int)(port ?? (tls ? TelemetryDefinition.UsualSecurePort : TelemetryDefinition.UsualPort)),
        };
    }

    private bool RefuseSecrets(Fields fields)
    {
        Entry[] found = [.. fields.Entries.Where(e => Secrets.Contains(e.Key))];
        foreach (Entry entry in found)
        {
            problems.Add(
                entry.KeyPlace, $"`{entry.Key}` does not belong into a rig file, which is copied into every record",
                $"put it into a file of its own and write `secrets:` and its name, or set it in the environment as RIGCONTROL_MQTT_{entry.Key.ToUpperInvariant()}");
        }

        return found.Length > 0;
    }

    private void Check(Fields fields, bool tls, string? broker)
    {
        if (broker is null)
        {
            foreach (string key in new[] { "tls", "authority", "pin", "secrets" }.Where(fields.Has))
                problems.Add(fields.PlaceOf(key), $"`{key}` is for a broker that is named, and the embedded one listens on this machine alone", "write `broker:` too, or leave it out");
        }
        else if (fields.Has("users"))
        {
            problems.Add(fields.PlaceOf("users"), "`users` is for the embedded broker; a broker that is named has users of its own", "leave it out");
        }

        foreach (string key in new[] { "authority", "pin" }.Where(k => broker is not null && !tls && fields.Has(k)))
            problems.Add(fields.PlaceOf(key), $"`{key}` says whom to believe, but without TLS nobody proves anything", "write `tls: yes` too, or leave it out");
    }

    private string? PathOf(Fields fields, string key) =>
        fields.Optional(key) is { } node ? WordFields.TextOf(node, "a file's name", problems) : null;

    private string? Matching(Node? node, Regex pattern, string fault, string due)
    {
        if (node is null || WordFields.TextOf(node, due, problems) is not { } text)
            return null;
        if (pattern.IsMatch(text))
            return text;
        problems.Add(node.Place, $"{Words.Quote(text)} {fault}", $"write {due}");
        return null;
    }

    [GeneratedRegex(@"^(?=.{1,253}\z)[A-Za-z0-9]([A-Za-z0-9.-]*[A-Za-z0-9])?\z", RegexOptions.CultureInvariant)]
    private static partial Regex HostPattern();

    [GeneratedRegex(@"^([0-9A-Fa-f]{2}:?){31}[0-9A-Fa-f]{2}\z", RegexOptions.CultureInvariant)]
    private static partial Regex PinPattern();
}
