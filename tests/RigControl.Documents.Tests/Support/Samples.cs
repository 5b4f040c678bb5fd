using RigControl.Model.Rig;

namespace RigControl.Documents.Tests.Support;

/// <summary>Files in order, from which the wrong ones are made by changing one thing.</summary>
internal static class Samples
{
    public const string Procedure = """
        procedure: enclosed-spin-up
        repeat: 3
        requires: [lid-closed, motor-temperature]
        steps:
          - arm: { within: 10 s, requires: [lid-closed] }
          - spin-up:
              throttle: 60 %
              ramp: 2 s
              until: { channel: rotor.speed, steady-within: 1 %, for: 0.5 s }
              timeout: 8 s
              interlocks: [torque-watch]
          - hold: { for: 5 s }
          - coast-down: { until: { channel: rotor.speed, below: 60 rpm }, timeout: 60 s }
          - rest: { until: { channel: motor.temperature, below: 40 degC }, timeout: 300 s }
        figures: [spin-up-time, steady-speed]
        figures-at: { after: 2 s, to-speed: 5000 rpm, settled-within: 5 %, match: 180 s, duty: 50 %, ambient: 25 degC }
        """;

    public const string Article = """
        article: disc-180
        controller:
          mode: one-way
          stop: 1000 us
          minimum: 1000 us
          maximum: 2000 us
          direction: longer
          brakes-at-stop: no
          when-pulses-cease: stops
          arming-time: 2 s
        rotor: { mass: 180 g, tip-radius: 45 mm, inertia: 0.00018225 kg.m2, maximum-speed: 10000 rpm }
        motor: { kv: 1000 rpm/V, winding-resistance: 80 mOhm, no-load-current: 1.2 A, current-limit: 30 A }
        pack: { chemistry: LiPo, cells: 3S, capacity: 1300 mAh, resistance: 30 mOhm }
        stopping-time: 0.5 s
        longest-coast-down: 60 s
        fastest-rise: 0.5 s
        """;

    public const string Rig = """
        rig: workshop-box
        scan: 200 Hz
        enclosure: { rating: 600 J, source: "test sheet of the box" }
        standstill: { below: 60 rpm, for: 1 s }
        devices:
          - id: board
            plugin: rig-board
            options: { port: ttyUSB0, retries: 5 }
            channels: { speed: rotor.speed }
        interlocks:
          - { id: lid-closed, plugin: lid-closed }
          - id: motor-temperature
            plugin: temperature-ceiling
            options: { ceiling: 80 degC, rise: 20 K, window: 2 s }
            action: stop-output
            reset: restart
            scope: named-steps
        guard:
          kind: fixed
          source: "tried with the key"
          opening-time: 20 s
          margin: 50 %
          distance: 400 mm
          gap: 20 mm
          auxiliary-release: { needs-tool: yes, opens-coil: no }
        """;

    public const string Rules = """
        rules: club-evening
        limits:
          class-mass: { value: 1.5 kg, source: "handbook, page 3", date: 2026-05-31 }
          tip-speed:
            value: 50 m/s
            source: "handbook, page 7"
            date: 2026-05-31
          stopping-time: { value: 60 s, source: "handbook, page 8", date: 2026-05-31 }
          voltage: { value: 30 V, source: "handbook, page 9", date: 2026-05-31 }
        """;

    /// <summary>Plugins of every kind of option, as a host would describe what is installed.</summary>
    public static PluginKinds Kinds { get; } = new(
        ByName(
            new("rig-board", "The board on a serial line.",
            [
                Option("port", OptionKind.Text),
                Option("retries", OptionKind.Count, minimum: 0, maximum: 9, standard: 3),
                Option("strict", OptionKind.Switch, standard: true),
                Option("edge", OptionKind.Choice, standard: "rising", choices: ["rising", "falling"]),
            ]),
            new("bench", "A modelled bench.", [])),
        ByName(
            new("lid-closed", "Both lid contacts agree that it is closed.", [Option("discrepancy-time", OptionKind.Quantity, "s", 0.005, 2, 0.1)]),
            new("failsafe-confirmed", "The failsafe was confirmed.", []),
            new("over-speed", "The rotor stays below a speed.", [Option("limit", OptionKind.Quantity, "rpm", 1, 200_000)]),
            new("temperature-ceiling", "A temperature stays below its ceiling.",
            [
                Option("channel", OptionKind.Channel, standard: "motor.temperature"),
                Option("ceiling", OptionKind.Quantity, "degC", 1, 500),
                Option("rise", OptionKind.Quantity, "K", 0.1, 200),
                Option("window", OptionKind.Quantity, "s", 0.05, 600),
            ])));

    private static OptionDescription Option(
        string name, OptionKind kind, string? unit = null, double minimum = 0, double maximum = 0, object? standard = null, string[]? choices = null) =>
        new(name, $"Meaning of {name}.", kind, unit, minimum, maximum, standard, choices ?? []);

    private static Dictionary<string, PluginKind> ByName(params PluginKind[] kinds) => kinds.ToDictionary(k => k.Name);
}
