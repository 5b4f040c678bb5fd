namespace RigControl.Board.Simulator.Host;

/// <summary>A symbolic link with a steady name to a pseudo-terminal; removed at the end.</summary>
internal sealed class TerminalLink : IDisposable
{
    private readonly string name;

    /// <exception cref="IOException">The name is taken by something that is no link.</exception>
    public TerminalLink(string name, string target)
    {
        this.name = name;
        var old = new FileInfo(name);
        if (old.Exists && old.LinkTarget is null)
            throw new IOException($"{name} exists and is no symbolic link; choose another name for --link.");
        if (old.LinkTarget is not null)
            old.Delete();
        File.CreateSymbolicLink(name, target);
    }

    public void Dispose() => File.Delete(name);
}
