using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Documents.Rigs;

/// <summary>Reads the whole of a rig file.</summary>
internal sealed class RigReader(PluginKinds kinds, ProblemList problems)
{
    // The host itself takes one place.
    private const int MostDevices = Capacity.Devices - 1;

    private static readonly Bounds Scan = new("Hz", 10, 1000);
    private static readonly Bounds Rating = new("J", 1, 1_000_000);
    private static readonly Bounds StandstillSpeed = new("rpm", 1, 600);
    private static readonly Bounds StandstillTime = new("s", 0.1, 60);

    public RigDefinition? Read(Fields fields)
    {
        string? name = fields.Name("rig");
        double? scan = fields.Quantity("scan", Scan);
        (double? rating, string source) = Enclosure(fields.Optional("enclosure"));
        GuardDefinition? guard = GuardReader.Read(fields.Optional("guard"), problems);
        (double? speed, TimeSpan? time) = Standstill(fields.Required("standstill", "`{ below: …, for: … }`, a speed in rpm and a time in s"));
        IReadOnlyList<DeviceDefinition> devices = Devices(fields.Required("devices", "a list of devices"));
        IReadOnlyList<InterlockDefinition> interlocks = Interlocks(fields.Required("interlocks", "a list of interlocks"));
        TelemetryDefinition? telemetry = new TelemetryReader(problems).Read(fields.Optional("telemetry"));
        fields.Close();
        return name is null || scan is null ? null : new()
        {
            Name = name,
            ScanPeriod = TimeSpan.FromSeconds(1 / scan.Value),
            EnclosureRating = rating,
            EnclosureSource = source,
            Guard = guard,
            StandstillSpeed = speed ?? 0,
            StandstillTime = time ?? TimeSpan.Zero,
            Devices = devices,
            Interlocks = interlocks,
            Telemetry = telemetry,
        };
    }

    // A rating that nobody can trace is a guess, and a guess does not contain a fragment.
    private (double? Rating, string Source) Enclosure(Node? node)
    {
        if (Fields.Of(node, "the enclosure", problems) is not { } fields)
            return (null, "");
        double? rating = fields.Quantity("rating", Rating);
        string? source = WordFields.TextOf(fields.Required("source", "where the rating comes from, in quotes"), "where the rating comes from, in quotes", problems);
        fields.Close();
        return (rating, source ?? "");
    }

    private (double? Speed, TimeSpan? Time) Standstill(Node? node)
    {
        if (Fields.Of(node, "the standstill", problems) is not { } fields)
            return default;
        double? speed = fields.Quantity("below", StandstillSpeed);
        TimeSpan? time = fields.Time("for", StandstillTime);
        fields.Close();
        return (speed, time);
    }

    private List<DeviceDefinition> Devices(Node? node)
    {
        var reader = new DeviceReader(kinds.Devices, problems);
        return [.. WordFields.Items(node, MostDevices, problems).Select(reader.Read).OfType<DeviceDefinition>()];
    }

    private List<InterlockDefinition> Interlocks(Node? node)
    {
        var reader = new InterlockReader(kinds.Interlocks, problems);
        return [.. WordFields.Items(node, Capacity.Interlocks, problems).Select(reader.Read).OfType<InterlockDefinition>()];
    }
}
