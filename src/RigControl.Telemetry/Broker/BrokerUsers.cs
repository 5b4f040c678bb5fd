using System.Security.Cryptography;
using System.Text;
using RigControl.Telemetry.Links;

namespace RigControl.Telemetry.Broker;

/// <summary>
/// The users of the embedded broker. Without a file every client on this machine may watch and stop; with one, only those who
/// stand in it, each with the rights written there.
/// </summary>
internal sealed class BrokerUsers
{
    private readonly Dictionary<string, (Role Role, byte[] Password)>? _users;

    private BrokerUsers(Dictionary<string, (Role Role, byte[] Password)>? users) => _users = users;

    public static BrokerUsers Everyone { get; } = new(null);

    /// <summary>From a file of lines <c>operator NAME PASSWORD</c> or <c>reader NAME PASSWORD</c>.</summary>
    /// <exception cref="LinkException">The file cannot be read, or holds something else.</exception>
    public static BrokerUsers FromFile(string file)
    {
        Dictionary<string, (Role, byte[])> users = [];
        foreach ((string line, int number) in Lines(file).Select((l, i) => (l.Trim(), i + 1)))
        {
            if (line.Length == 0 || line[0] == '#')
                continue;
            string[] parts = line.Split(' ', 3, StringSplitOptions.RemoveEmptyEntries);
            Role role = parts[0] switch { "reader" => Role.Reader, "operator" => Role.Operator, _ => Role.None };
            // The line itself is not repeated: it holds a secret.
            if (role == Role.None || parts.Length < 3)
                throw new LinkException($"{file}:{number}: not a user; write reader or operator, a name and a password");
            if (!users.TryAdd(parts[1], (role, Encoding.UTF8.GetBytes(parts[2]))))
                throw new LinkException($"{file}:{number}: the user {parts[1]} stands there twice; keep one of them");
        }

        return users.Count > 0 ? new BrokerUsers(users) : throw new LinkException($"{file}: holds no user; write one, or leave `users` out of the rig file");
    }

    public Role RoleOf(string? name, byte[]? password)
    {
        if (_users is null)
            return Role.Operator;
        if (name is null || !_users.TryGetValue(name, out (Role Role, byte[] Password) user))
            return Role.None;
        return CryptographicOperations.FixedTimeEquals(user.Password, password ?? []) ? user.Role : Role.None;
    }

    private static string[] Lines(string file)
    {
        try
        {
            return File.ReadAllLines(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LinkException($"{file}: the users of the broker cannot be read: {e.Message}");
        }
    }
}
