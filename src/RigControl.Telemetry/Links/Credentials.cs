namespace RigControl.Telemetry.Links;

/// <summary>
/// Who this program is to the broker. It comes from the environment or from a file of its own, never from a rig file, which
/// is copied into every record.
/// </summary>
/// <param name="User">Null where none is given.</param>
/// <param name="Password">Null where none is given.</param>
/// <param name="Certificate">PEM file of the client's certificate, or null.</param>
/// <param name="Key">PEM file of its key, or null where the certificate's file holds it.</param>
public sealed record Credentials(string? User, string? Password, string? Certificate, string? Key)
{
    public const string UserVariable = "RIGCONTROL_MQTT_USER";
    public const string PasswordVariable = "RIGCONTROL_MQTT_PASSWORD";
    public const string CertificateVariable = "RIGCONTROL_MQTT_CERTIFICATE";
    public const string KeyVariable = "RIGCONTROL_MQTT_KEY";

    private static readonly string[] Names = ["user", "password", "certificate", "key"];

    public static Credentials None { get; } = new(null, null, null, null);

    /// <summary>From the environment.</summary>
    /// <param name="variable">Gives the value of a variable, or null.</param>
    public static Credentials FromEnvironment(Func<string, string?> variable) =>
        new(variable(UserVariable), variable(PasswordVariable), variable(CertificateVariable), variable(KeyVariable));

    /// <summary>From a file of lines <c>user: …</c>, <c>password: …</c>, <c>certificate: …</c>, <c>key: …</c>; files beside it by their names.</summary>
    /// <exception cref="LinkException">The file cannot be read, or holds something else.</exception>
    public static Credentials FromFile(string file)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(file))!;
        Dictionary<string, string> values = [];
        foreach ((string line, int number) in Lines(file).Select((l, i) => (l.Trim(), i + 1)))
        {
            if (line.Length == 0 || line[0] == '#')
                continue;
            string[] parts = line.Split(':', 2, StringSplitOptions.TrimEntries);
            // The line itself is not repeated: it may hold the secret.
            if (parts.Length < 2 || !Names.Contains(parts[0]))
                throw new LinkException($"{file}:{number}: not a line of secrets; write one of user, password, certificate or key, a colon and the value");
            values[parts[0]] = parts[1];
        }

        string? At(string name) => values.TryGetValue(name, out string? path) ? Path.Combine(folder, path) : null;
        return new Credentials(values.GetValueOrDefault("user"), values.GetValueOrDefault("password"), At("certificate"), At("key"));
    }

    /// <summary>Nothing of it is ever printed.</summary>
    public override string ToString() => "credentials";

    private static string[] Lines(string file)
    {
        try
        {
            return File.ReadAllLines(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LinkException($"{file}: the secrets cannot be read: {e.Message}");
        }
    }
}
