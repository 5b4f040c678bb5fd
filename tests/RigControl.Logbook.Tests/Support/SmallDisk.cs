using System.Diagnostics;

namespace RigControl.Logbook.Tests.Support;

/// <summary>A file system in memory that is soon full. Where this user may not mount one, the test is skipped and says so.</summary>
internal sealed class SmallDisk : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public string Path => _folder.Path;

    private SmallDisk() { }

    public static SmallDisk Mount(int megabytes)
    {
        SmallDisk disk = new();
        if (Run("mount", "-t", "tmpfs", "-o", $"size={megabytes}m", "tmpfs", disk.Path))
            return disk;
        disk._folder.Dispose();
        Assert.Skip("this user may not mount a small disk");
        return disk;
    }

    public void MakeReadOnly() => Assert.True(Run("mount", "-o", "remount,ro", Path));

    public void Dispose()
    {
        Run("umount", Path);
        _folder.Dispose();
    }

    private static bool Run(string program, params string[] arguments)
    {
        try
        {
            using Process process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
