using RigControl.Contracts;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Serial;

namespace RigControl.Devices.RigBoard.Searching;

/// <summary>
/// Looks whether a rig board hangs at a port. A board talks by itself, two hundred lines a second: whatever does not is left in
/// peace, for it may be a printer, a modem or another maker's machine that would obey what it hears.
/// </summary>
internal static class BoardSearch
{
    /// <summary>Good status lines by which a board is known.</summary>
    private const int EnoughLines = 3;

    /// <summary>How long to listen: a board that starts when the port opens tests its memory first.</summary>
    private static readonly TimeSpan ListeningTime = TimeSpan.FromMilliseconds(600);

    public static IReadOnlyList<string> WhenNothing { get; } =
    [
        "Is the board powered, and does its light or its 5 V say so?",
        "Is the serial adapter plugged in, and does the system list it (ls /dev/serial/by-id)?",
        "May this user open the port? On Linux join the group that owns it, often dialout, and log in again.",
        "Are RX and TX crossed (the board's TX to the adapter's RX), and do both share ground? docs/wiring.md shows it.",
        "Is the firmware on the chip? rigcontrol board flash writes it, through a programmer.",
        "Is another program holding the port? End it first.",
        "A port that is built in is looked at only when it is named: rigcontrol board find --port /dev/ttyS0.",
    ];

    /// <param name="open">Opens a port, or throws <see cref="DeviceException"/>.</param>
    public static Finding At(string port, Func<string, ILine> open, TimeProvider time)
    {
        try
        {
            long start = time.GetTimestamp();
            using BoardLink link = new(open(port), port);
            return Listen(link, () => time.GetElapsedTime(start));
        }
        catch (DeviceException e)
        {
            return Not(port, e.Message);
        }
    }

    private static Finding Listen(BoardLink link, Func<TimeSpan> now)
    {
        link.StartAfresh();
        int lines = 0;
        for (TimeSpan end = now() + ListeningTime; lines < EnoughLines && now() < end;)
        {
            link.Receive();
            while (link.NextLine())
                lines += IsStatus(link.Line) ? 1 : 0;
        }

        if (lines >= EnoughLines)
            return Of(new Greeting(link, now).Introduce(), link.Port);
        return Not(link.Port, link.Heard == 0
            ? "nothing speaks here; a rig board would, by itself"
            : $"something speaks here, but not as a rig board at {SerialLine.Baud} baud");
    }

    private static Finding Of(BoardHello hello, string port)
    {
        string whole = (hello.FlashGood, hello.MemoryGood) switch
        {
            (true, true) => "",
            (false, _) => ", its program is damaged: load the firmware again",
            _ => ", its memory is faulty: replace it",
        };
        if (hello.Protocol != BoardHello.Spoken)
            return new Finding(port, true, $"rig board of line protocol {hello.Protocol}; this program speaks {BoardHello.Spoken}: load the firmware that came with it", new Dictionary<string, string>());
        return new Finding(port, true, $"rig board {hello.Name}, firmware {hello.Firmware}{whole}", new Dictionary<string, string>
        {
            ["board"] = hello.Name, ["firmware"] = hello.Firmware, ["last-reset"] = hello.ResetCause,
        });
    }

    private static bool IsStatus(ReadOnlySpan<byte> line) => line.StartsWith("now "u8);

    private static Finding Not(string port, string says) => new(port, false, says, new Dictionary<string, string>());
}
