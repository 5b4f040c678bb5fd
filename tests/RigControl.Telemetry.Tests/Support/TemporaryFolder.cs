namespace RigControl.Telemetry.Tests.Support;

internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("rigcontrol-telemetry-").FullName;

    public string At(string name) => System.IO.Path.Combine(Path, name);

    public string Write(string name, string text)
    {
        File.WriteAllText(At(name), text);
        return At(name);
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
