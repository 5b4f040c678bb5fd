namespace RigControl.Logbook.Tests.Support;

/// <summary>A folder of the test's own, gone afterwards.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    /// <summary>A file system in memory where there is one: hundreds of flushes to a slow disk prove nothing more here.</summary>
    private const string InMemory = "/dev/shm";

    private readonly DirectoryInfo _folder = Directory.Exists(InMemory)
        ? Directory.CreateDirectory(System.IO.Path.Combine(InMemory, $"logbook-{Guid.NewGuid():N}"))
        : Directory.CreateTempSubdirectory("logbook-");

    public string Path => _folder.FullName;

    /// <summary>Path of a logbook in it, which need not exist.</summary>
    public string Logbook => File("logbook.sqlite");

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => _folder.Delete(recursive: true);
}
