using System.Text;
using RigControl.Contracts;

namespace RigControl.Devices.RigBoard.Serial;

/// <summary>
/// Keeps a second host off a port. The operating system's own exclusive mode does not stop a privileged user, and two
/// hosts that number their lines separately would each be refused half the time.
/// </summary>
internal sealed class PortLock : IDisposable
{
    private const string SystemFolder = "/run/lock";
    private readonly FileStream _file;

    private PortLock(FileStream file) => _file = file;

    /// <summary>Takes the lock of a port, whatever link names it. Throws <see cref="DeviceException"/> when it is taken.</summary>
    public static PortLock Take(string port)
    {
        string path = Path.Combine(Folder(), $"rigcontrol-{FileName(Resolve(port))}.lock");
        try
        {
            return new PortLock(new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new DeviceException($"the serial port {port} is in use by another host ({path} is taken): end that one first", e);
        }
    }

    public void Dispose() => _file.Dispose();

    private static string Folder() => Directory.Exists(SystemFolder) ? SystemFolder : Path.GetTempPath();

    // The link is what people write, and there may be several to one port.
    private static string Resolve(string port) => File.ResolveLinkTarget(port, returnFinalTarget: true)?.FullName ?? Path.GetFullPath(port);

    private static string FileName(string path)
    {
        StringBuilder name = new();
        foreach (char letter in path)
            name.Append(char.IsAsciiLetterOrDigit(letter) ? letter : '-');
        return name.ToString().Trim('-');
    }
}
