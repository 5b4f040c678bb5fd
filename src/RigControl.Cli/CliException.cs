namespace RigControl.Cli;

/// <summary>The command cannot go on. Each line is a sentence that a person can act on.</summary>
internal sealed class CliException(int exitCode, params IReadOnlyList<string> lines) : Exception(string.Join(Environment.NewLine, lines))
{
    public int ExitCode { get; } = exitCode;

    public IReadOnlyList<string> Lines { get; } = lines;
}
