namespace RigControl.Documents.Tests.Corpus;

/// <summary>Rig files whose telemetry section has one thing wrong.</summary>
public static class WrongTelemetry
{
    public static IReadOnlyList<Wrong> All { get; } =
    [
        With("a password", "{ broker: broker.example, tls: yes, password: hush }", true,
            "2:48: `password` does not belong into a rig file, which is copied into every record; put it into a file of its own and write `secrets:` and its name, or set it in the environment as RIGCONTROL_MQTT_PASSWORD"),
        With("a user and a key", "{ user: rig, key: rig.key }", true,
            "2:14: `user` does not belong into a rig file, which is copied into every record; put it into a file of its own and write `secrets:` and its name, or set it in the environment as RIGCONTROL_MQTT_USER",
            "2:25: `key` does not belong into a rig file, which is copied into every record; put it into a file of its own and write `secrets:` and its name, or set it in the environment as RIGCONTROL_MQTT_KEY"),
        With("a site in capitals", "{ site: Workshop }", true,
            "2:20: `Workshop` is not a name; write a name of a-z, 0-9 and -"),
        With("a broker with its port", "{ broker: \"broker.example:1883\" }", true,
            "2:22: `broker.example:1883` is not a host's name; write the broker's host alone, such as `broker.workshop.example`, without a port"),
        With("a port that there is not", "{ broker: broker.example, port: 70000 }", true,
            "2:44: 70000 is out of range; write a whole number from 1 to 65535"),
        With("a pin too short", "{ broker: broker.example, tls: yes, pin: 00ff }", true,
            "2:53: `00ff` is not a certificate's SHA-256; write 64 hexadecimal digits"),
        With("TLS without a broker", "{ tls: yes }", false,
            "2:19: `tls` is for a broker that is named, and the embedded one listens on this machine alone; write `broker:` too, or leave it out"),
        With("an authority without TLS", "{ broker: broker.example, authority: workshop.pem }", false,
            "2:49: `authority` says whom to believe, but without TLS nobody proves anything; write `tls: yes` too, or leave it out"),
        With("users of a named broker", "{ broker: broker.example, users: users.txt }", false,
            "2:45: `users` is for the embedded broker; a broker that is named has users of its own; leave it out"),
        With("an unknown key", "{ hostname: broker.example }", true,
            "2:14: the telemetry knows no key `hostname`; leave it out, or write one of site, broker, tls, port, authority, pin, secrets, users"),
    ];

    private static Wrong With(string name, string section, bool seenBySchema, params string[] problems) =>
        new(name, "rig: workshop-box\n", $"rig: workshop-box\ntelemetry: {section}\n", seenBySchema, problems);
}
