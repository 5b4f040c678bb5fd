using RigControl.Model.Records;

namespace RigControl.Runtime.Scanning;

/// <summary>
/// The only other door into the scan. Any thread may put a command in; the scan takes them out, stops first, then the
/// rest in order of arrival. A stop is always taken, however much waits.
/// </summary>
public sealed class CommandInbox
{
    /// <summary>Most commands other than a stop that may wait: eight scans' worth; a person never comes near.</summary>
    public const int Limit = 64;

    private readonly Lock _lock = new();
    private readonly Queue<Command> _others = new(Limit);
    private Command? _stop;
    private readonly (long Id, string Issuer)[] _issuers = new (long, string)[Limit];
    private long _lastId;
    private volatile bool _any;

    /// <summary>
    /// Puts a command in. Returns its id; the id of the stop that already waits; or 0 when the inbox is full and the
    /// command is not a stop.
    /// </summary>
    /// <param name="kind">What is asked.</param>
    /// <param name="source">Who asks.</param>
    /// <param name="value">The answer; 0 with every other kind.</param>
    /// <param name="issuer">Name of who asked, where the source alone does not say it.</param>
    public long Post(CommandKind kind, CommandSource source, double value = 0, string issuer = "")
    {
        lock (_lock)
        {
            if (kind == CommandKind.Stop)
            {
                _stop ??= Next(kind, source, value, issuer);
                _any = true;
                return _stop.Value.Id;
            }

            if (_others.Count == Limit)
                return 0;
            _others.Enqueue(Next(kind, source, value, issuer));
            _any = true;
            return _lastId;
        }
    }

    /// <summary>Name of who gave a command, as long as it is among the latest; empty where there is none.</summary>
    public string IssuerOf(long id)
    {
        lock (_lock)
        {
            (long latest, string issuer) = _issuers[id % Limit];
            return latest == id ? issuer ?? "" : "";
        }
    }

    private Command Next(CommandKind kind, CommandSource source, double value, string issuer)
    {
        long id = ++_lastId;
        _issuers[id % Limit] = (id, issuer);
        return new Command(id, kind, source, value);
    }

    /// <summary>Takes out as many as fit into <paramref name="into"/>, which must hold at least one.</summary>
    internal int Drain(Span<Command> into)
    {
        if (!_any)
            return 0;
        lock (_lock)
        {
            int count = 0;
            if (_stop is { } stop)
                into[count++] = stop;
            _stop = null;
            while (count < into.Length && _others.TryDequeue(out Command command))
                into[count++] = command;
            _any = _others.Count > 0;
            return count;
        }
    }
}
