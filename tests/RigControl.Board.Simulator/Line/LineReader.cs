using System.Text;

namespace RigControl.Board.Simulator.Line;

/// <summary>Cuts the board's bytes into lines and counts those that are spoilt.</summary>
public sealed class LineReader
{
    private readonly StringBuilder text = new();

    /// <summary>Lines whose form or CRC were wrong.</summary>
    public int Spoilt { get; private set; }

    /// <summary>The good lines that end within <paramref name="bytes"/>.</summary>
    public List<BoardLine> Feed(ReadOnlySpan<byte> bytes)
    {
        var lines = new List<BoardLine>();
        foreach (byte value in bytes)
            if (value != '\n')
                text.Append((char)value);
            else
                Finish(lines);
        return lines;
    }

    private void Finish(List<BoardLine> lines)
    {
        if (BoardLine.Read(text.ToString()) is { } line)
            lines.Add(line);
        else
            Spoilt++;
        text.Clear();
    }
}
