using YamlDotNet.Core;

namespace RigControl.Documents.Text;

/// <summary>The lines of a text as an editor counts them, so that no place ever points outside of it.</summary>
internal sealed class Lines
{
    private readonly string[] lines;

    public Lines(string text) => lines = text.ReplaceLineEndings("\n").Split('\n');

    public int Count => lines.Length;

    /// <summary>The line of a number, from 1.</summary>
    public string this[int number] => lines[number - 1];

    /// <summary>The place that the parser means. For what is not written at all it points one past the end, or further.</summary>
    public Place At(Mark mark)
    {
        int line = (int)Math.Clamp(mark.Line, 1, lines.Length);
        return new(line, mark.Line > lines.Length ? this[line].Length + 1 : (int)Math.Clamp(mark.Column, 1, this[line].Length + 1));
    }
}
