using RigControl.Model.Rig;

namespace RigControl.Cli.Asking;

/// <summary>Asks what a rig file needs; devices and interlocks are asked for as the installed plugins describe themselves.</summary>
internal sealed class RigQuestions(PluginKinds kinds)
{
    private const string NoMore = "no more";

    private readonly HashSet<string> _ids = [];

    public void Ask(Interview ask)
    {
        _ids.Clear();
        Head(ask);
        Devices(ask);
        Interlocks(ask);
    }

    private static void Head(Interview ask)
    {
        ask.Draft.Comment(0, "A rig: what measures and drives, and what must hold. Every limit here is its builder's.");
        ask.Draft.Comment(0, "Keys, units and ranges: docs/procedure-files.md. Wiring: docs/wiring.md.");
        ask.Draft.Line();
        ask.Value(0, "rig", new("What is the rig called?", "a name of a-z, 0-9 and -, such as workshop-box"));
        ask.Value(0, "scan", new("How often shall it look and decide?", "in Hz, 10 Hz to 1000 Hz.") { Usual = "200 Hz" }, "scans a second");
        ask.Draft.Line();
        if (ask.Confirm("Has the enclosure a rating that you can trace?", "The energy that it was tested or reckoned to hold. A guess is no rating: then answer no."))
        {
            ask.Draft.Line("enclosure:");
            ask.Value(2, "rating", new("Which energy is it rated for?", "in J."));
            ask.Text(2, "source", new("Where does the rating come from?", "test sheet, calculation, by whom and when."));
        }
        else
        {
            ask.Draft.Comment(0, "enclosure: left out, since nobody has rated it.");
        }

        ask.Draft.Line();
        ask.Draft.Comment(0, "Below this speed for this long, the rotor counts as standing and the lid may be released.");
        ask.Draft.Line("standstill:");
        ask.Value(2, "below", new("Below which speed does the rotor count as standing?", "in rpm, 1 rpm to 600 rpm; so slow that a hand in it comes to no harm."));
        ask.Value(2, "for", new("For how long without a break?", "in s, 0.1 s to 60 s."));
    }

    private void Devices(Interview ask)
    {
        ask.Draft.Line();
        string[] known = [.. kinds.Devices.Keys.Order(StringComparer.Ordinal)];
        bool any = false;
        while (ask.Choose(Question.Of(any ? "Which device besides?" : "Which device measures or drives?", "", [.. known, NoMore]) with { Meanings = Meanings(kinds.Devices, known) }) is var kind && kind != NoMore)
        {
            Head(ask, "devices", ref any);
            PluginKind plugin = kinds.Devices[kind];
            ask.Draft.Line($"  - id: {Unique(kind)}");
            ask.Draft.Line($"    plugin: {kind}  # {plugin.Meaning}");
            Options(ask, plugin, plugin.Options);
        }

        if (!any)
            ask.Draft.Line("devices: []");
    }

    // The head of a list is written with its first item: a head without one is no list.
    private static void Head(Interview ask, string list, ref bool any)
    {
        if (!any)
            ask.Draft.Line($"{list}:");
        any = true;
    }

    private void Interlocks(Interview ask)
    {
        ask.Draft.Line();
        ask.Draft.Comment(0, "What must hold in every scan; procedures name the ids. A limit is what your parts and your enclosure stand, not what they reach.");
        bool any = false;
        foreach (PluginKind kind in kinds.Interlocks.Values.Where(k => Usual.Contains(k.Name)).OrderBy(k => k.Name, StringComparer.Ordinal))
            AskedFor(ask, kind, ref any);
        Further(ask, ref any);
        if (!any)
            ask.Draft.Line("interlocks: []");
    }

    // Nearly every rig has them: each is offered by itself, so that none is forgotten. All others are picked from a list.
    private static readonly string[] Usual =
    [
        "failsafe-confirmed", "key-turned", "lid-closed", "lid-locked", "over-current", "over-speed", "stale-reading", "stop-clear", "tachometer-lost", "temperature-ceiling", "under-voltage",
    ];

    private void AskedFor(Interview ask, PluginKind kind, ref bool any)
    {
        string text = $"Is {kind.Name} to be watched?";
        while (ask.Confirm(text, kind.Meaning))
        {
            Head(ask, "interlocks", ref any);
            Interlock(ask, kind);
            if (!LooksAtAnyChannel(kind))
                break;
            text = $"Is {kind.Name} to be watched for another channel too?";
        }
    }

    private void Further(Interview ask, ref bool any)
    {
        string[] further = [.. kinds.Interlocks.Keys.Where(k => !Usual.Contains(k)).Order(StringComparer.Ordinal)];
        if (further.Length == 0)
            return;
        Question question = Question.Of("Which interlock besides?", "docs/interlocks.md says what each is for.", [.. further, NoMore]) with { Meanings = Meanings(kinds.Interlocks, further) };
        while (ask.Choose(question) is var name && name != NoMore)
        {
            Head(ask, "interlocks", ref any);
            Interlock(ask, kinds.Interlocks[name]);
        }
    }

    private void Interlock(Interview ask, PluginKind kind)
    {
        // The id tells the channel, so that a procedure can name it: the channel is asked before the id is written.
        string? channel = LooksAtAnyChannel(kind)
            ? ask.Choose(Question.Of($"Which channel does {kind.Name} look at?", "as the devices supply it.", Channels))
            : null;
        ask.Draft.Line($"  - id: {Unique(channel is null ? kind.Name : channel.Replace('.', '-') + Endings[kind.Name])}");
        ask.Draft.Line($"    plugin: {kind.Name}  # {kind.Meaning}");
        Options(ask, kind, kind.Options.Where(o => o.Name != "channel" || channel is null), channel);
    }

    private static readonly string[] Channels =
    [
        Model.Signals.ChannelNames.MotorTemperature, Model.Signals.ChannelNames.ControllerTemperature, Model.Signals.ChannelNames.BatteryTemperature,
        Model.Signals.ChannelNames.AmbientTemperature, Model.Signals.ChannelNames.RotorSpeed, Model.Signals.ChannelNames.BatteryVoltage,
        Model.Signals.ChannelNames.BatteryCurrent,
    ];

    // Interlocks that make sense several times, once for each channel, and how their ids end after the channel's name.
    private static readonly Dictionary<string, string> Endings = new() { ["temperature-ceiling"] = "", ["stale-reading"] = "-fresh" };

    private static bool LooksAtAnyChannel(PluginKind kind) => Endings.ContainsKey(kind.Name);

    private static void Options(Interview ask, PluginKind kind, IEnumerable<OptionDescription> options, string? channel = null)
    {
        OptionDescription[] all = [.. options];
        OptionDescription[] required = [.. all.Where(o => o.Default is null)];
        if (required.Length > 0 || channel is not null)
            ask.Draft.Line("    options:");
        if (channel is not null)
            ask.Draft.Line($"      channel: {channel}");
        foreach (OptionDescription option in required)
            ask.Value(6, option.Name, new($"{kind.Name}: {option.Name}?", $"{option.Meaning} {Due(option)}") { Choices = Words(option) }, option.Meaning);
        bool any = required.Length > 0 || channel is not null;
        if (!any && all.Length > 0)
            ask.Draft.Line("    # options:");
        foreach (OptionDescription option in all.Where(o => o.Default is not null))
            ask.Draft.Line($"{(any ? "      # " : "    #   ")}{option.Name}: {Shown(option)}  # {option.Meaning}");
    }

    private static IReadOnlyList<string> Words(OptionDescription option) => option.Kind switch
    {
        OptionKind.Switch => ["yes", "no"],
        OptionKind.Choice => option.Choices,
        _ => [],
    };

    private static string Due(OptionDescription option) => option.Kind switch
    {
        OptionKind.Quantity when option.Unit == "1" => "A plain number with the unit 1, such as `5 1`.",
        OptionKind.Quantity => FormattableString.Invariant($"In {option.Unit}, from {option.Minimum} to {option.Maximum}."),
        OptionKind.Count => FormattableString.Invariant($"A whole number from {option.Minimum} to {option.Maximum}."),
        _ => "",
    };

    private static string Shown(OptionDescription option) => option.Default switch
    {
        bool on => on ? "yes" : "no",
        double number => FormattableString.Invariant($"{number} {option.Unit}"),
        IFormattable other => other.ToString(null, System.Globalization.CultureInfo.InvariantCulture),
        var text => text?.ToString() ?? "",
    };

    private static Dictionary<string, string> Meanings(IReadOnlyDictionary<string, PluginKind> known, IEnumerable<string> names) =>
        names.ToDictionary(n => n, n => known[n].Meaning);

    private string Unique(string wished)
    {
        string id = wished;
        for (int n = 2; !_ids.Add(id); n++)
            id = $"{wished}-{n}";
        return id;
    }
}
