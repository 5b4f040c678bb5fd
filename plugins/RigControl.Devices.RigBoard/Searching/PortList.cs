using System.IO.Ports;

namespace RigControl.Devices.RigBoard.Searching;

/// <summary>
/// The serial ports at which a board could hang. On Linux those of plugged-in adapters, by the names that stay the same when
/// the adapter is plugged in again; a built-in port has to be named. Elsewhere every port that the system lists.
/// </summary>
internal static class PortList
{
    private const string Devices = "/dev";
    private const string Lasting = "/dev/serial/by-id";

    private static readonly string[] Adapters = ["ttyUSB*", "ttyACM*"];

    public static IReadOnlyList<string> Likely() => OperatingSystem.IsLinux() ? OnLinux(Devices, Lasting) : [.. SerialPort.GetPortNames().Order(StringComparer.Ordinal)];

    /// <param name="devices">Folder of the ports.</param>
    /// <param name="lasting">Folder of links to them, named by what is plugged in; it need not be there.</param>
    internal static IReadOnlyList<string> OnLinux(string devices, string lasting)
    {
        string[] links = Directory.Exists(lasting) ? [.. Directory.GetFiles(lasting).Order(StringComparer.Ordinal)] : [];
        HashSet<string> linked = [.. links.Select(Target)];
        IEnumerable<string> others = Adapters.SelectMany(a => Directory.GetFiles(devices, a)).Where(p => !linked.Contains(p)).Order(StringComparer.Ordinal);
        return [.. links, .. others];
    }

    private static string Target(string link) => File.ResolveLinkTarget(link, returnFinalTarget: true)?.FullName ?? link;
}
