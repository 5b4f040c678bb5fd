using System.Globalization;
using System.Text;
using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Devices.RigBoard.Tests.Double;

/// <summary>What the board does with the host's lines, in the order of the protocol's rules.</summary>
public sealed partial class BoardDouble
{
    /// <summary>Refuses the next so many lines of a word with a reason, whatever they say.</summary>
    public Dictionary<string, (string Reason, int Times)> Refuse { get; } = [];

    /// <summary>Words to which the board gives no answer.</summary>
    public HashSet<string> Ignore { get; } = [];

    /// <summary>Changes what <c>loaded</c> says that the board holds.</summary>
    public Func<string, string> EchoOfLoad { get; set; } = text => text;

    public void Hear(ReadOnlySpan<byte> bytes)
    {
        foreach (byte b in bytes)
        {
            if (b != '\n')
            {
                _incoming.Append((char)b);
                continue;
            }

            string line = _incoming.ToString();
            _incoming.Clear();
            if (!Dead)
                Take(line);
        }
    }

    private void Take(string line)
    {
        int check = line.LastIndexOf('#');
        if (check < 0 || line.Length > 119 || Encoding.ASCII.GetString(Compose(line[..check])) != line + "\n")
        {
            SpoiltLines++;
            return;
        }

        Heard.Add(line);
        string[] fields = line[..(check - 1)].Split(' ');
        if (Ignore.Contains(fields[0]))
            return;
        string? reason = Refused(fields[0]) ?? Obey(fields);
        if (reason is not null)
            Refusals.Add($"{fields[0]} {reason}");
        else
            _accepted = Hex(fields[1]);
        Answer(fields, reason);
    }

    private string? Refused(string word)
    {
        if (!Refuse.TryGetValue(word, out (string Reason, int Times) refusal) || refusal.Times == 0)
            return null;
        Refuse[word] = (refusal.Reason, refusal.Times - 1);
        return refusal.Reason;
    }

    private void Answer(string[] fields, string? reason)
    {
        if (reason is not null)
            Say("no", $"{fields[1]} {fields[0]} {reason}");
        else if (fields[0] == "hello")
            WriteHello();
        else if (fields[0] == "load")
            Say("loaded", $"{fields[1]} {_digest:X4} {EchoOfLoad(Configuration)}");
        else if (fields[0] == "reset")
            Say("ok", $"{fields[1]} reset");
    }

    private string? Obey(string[] fields)
    {
        if (fields[0] == "hello")
            return fields[2] == Protocol ? null : "version";
        if ((ushort)(Hex(fields[1]) - _accepted) is 0 or > 32767)
            return "repeat";
        return fields[0] switch
        {
            "load" => Load(fields[3..]),
            "drive" => Drive(fields),
            "reset" => Reset(fields),
            _ => "word",
        };
    }

    private string? Load(string[] configuration)
    {
        if (Power || PowerDemanded || (Demanded != 0 && Demanded != int.Parse(_configuration[0], CultureInfo.InvariantCulture)))
            return "busy";
        _configuration = configuration;
        _digest = ushort.Parse(Encoding.ASCII.GetString(Compose(Configuration))[^5..^1], NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        _digest = _digest == 0 ? ushort.MaxValue : _digest;
        (_confirmed, Demanded, PowerDemanded) = (false, 0, false);
        Latched |= BoardCauses.Start;
        return null;
    }

    private string? Drive(string[] fields)
    {
        (int pulse, bool power, bool release) = (int.Parse(fields[4], CultureInfo.InvariantCulture), fields[5] == "1", fields[6] == "1");
        int stop = _digest == 0 ? 0 : int.Parse(_configuration[0], CultureInfo.InvariantCulture);
        (int second, bool gate) = (int.Parse(fields[8], CultureInfo.InvariantCulture), fields[9] == "1");
        bool quiet = pulse == stop && second == SecondStop && !gate;
        bool ceases = pulse == 0 && power && Power;
        string? reason = _digest == 0 ? "bare"
            : Hex(fields[3]) != _digest ? "digest"
            : IsStale(fields[2]) ? "stale"
            : (!ceases && (pulse < int.Parse(_configuration[1], CultureInfo.InvariantCulture) || pulse > int.Parse(_configuration[2], CultureInfo.InvariantCulture))) || !SecondPermits(second) ? "range"
            : Latched != BoardCauses.None && (power || !quiet) ? "latched"
            : power && !Power && (pulse != stop || (Pulse != 0 && Pulse != stop)) ? "order"
            : _confirmed && Demanded == 0 && pulse != 0 && !quiet ? "order"
            : release && (power || !quiet) ? "unlock"
            : gate && !GateDemanded && power != Power ? "order"
            : gate && !GateDemanded && Math.Abs(Receiver - stop) > 25 ? "receiver"
            : null;
        if (reason is null)
            (SecondDemanded, GateDemanded, _confirmed, Demanded, PowerDemanded, Released, Marker, _heard) = (second, gate, true, pulse, power, release, fields[7] == "1", _now);
        return reason;
    }

    private bool SecondPermits(int pulse) => _configuration[16] == "none"
        ? pulse == 0
        : pulse >= int.Parse(_configuration[17], CultureInfo.InvariantCulture) && pulse <= int.Parse(_configuration[18], CultureInfo.InvariantCulture);

    private string? Reset(string[] fields)
    {
        string? reason = !_confirmed ? "bare"
            : IsStale(fields[2]) ? "stale"
            : PowerDemanded || Demanded != int.Parse(_configuration[0], CultureInfo.InvariantCulture) ? "demand"
            : StandingNow != BoardCauses.None ? "standing"
            : null;
        if (reason is not null)
            return reason;
        Latched = BoardCauses.None;
        Resets++;
        return null;
    }

    private bool IsStale(string echo) => !_written.TryGetValue(Hex(echo), out long written) || _now - written >= EchoAge;

    private static ushort Hex(string field) => ushort.Parse(field, NumberStyles.HexNumber, CultureInfo.InvariantCulture);
}
