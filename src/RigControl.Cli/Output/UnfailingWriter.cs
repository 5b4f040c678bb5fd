using System.Text;

namespace RigControl.Cli.Output;

/// <summary>
/// Standard error that nobody may be able to read: its terminal closed, its disk full. What is said there is lost then; a run is
/// not to end for it, for the record has it too.
/// </summary>
internal sealed class UnfailingWriter(TextWriter inner) : TextWriter
{
    public override Encoding Encoding => inner.Encoding;

    public override void Write(char value) => Try(() => inner.Write(value));

    public override void Write(string? value) => Try(() => inner.Write(value));

    public override void WriteLine(string? value) => Try(() => inner.WriteLine(value));

    public override void Flush() => Try(inner.Flush);

    private static void Try(Action write)
    {
        try
        {
            write();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ObjectDisposedException)
        {
            // There is nowhere left to say it.
        }
    }
}
