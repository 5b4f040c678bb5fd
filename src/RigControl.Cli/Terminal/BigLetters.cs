namespace RigControl.Cli.Terminal;

/// <summary>Words in letters of five rows, made of whole cells: to be read from across the room.</summary>
internal static class BigLetters
{
    public const int Rows = 5;

    // Five rows of five cells each; our own drawing, for the letters that the states need.
    private static readonly Dictionary<char, string> Shapes = new()
    {
        ['A'] = " ### |#   #|#####|#   #|#   #",
        ['C'] = " ####|#    |#    |#    | ####",
        ['D'] = "#### |#   #|#   #|#   #|#### ",
        ['E'] = "#####|#    |#### |#    |#####",
        ['F'] = "#####|#    |#### |#    |#    ",
        ['G'] = " ####|#    |#  ##|#   #| ####",
        ['H'] = "#   #|#   #|#####|#   #|#   #",
        ['I'] = "#####|  #  |  #  |  #  |#####",
        ['L'] = "#    |#    |#    |#    |#####",
        ['M'] = "#   #|## ##|# # #|#   #|#   #",
        ['N'] = "#   #|##  #|# # #|#  ##|#   #",
        ['O'] = " ### |#   #|#   #|#   #| ### ",
        ['P'] = "#### |#   #|#### |#    |#    ",
        ['R'] = "#### |#   #|#### |#  # |#   #",
        ['S'] = " ####|#    | ### |    #|#### ",
        ['T'] = "#####|  #  |  #  |  #  |  #  ",
        ['U'] = "#   #|#   #|#   #|#   #| ### ",
        ['W'] = "#   #|#   #|# # #|## ##|#   #",
        ['Y'] = "#   #| # # |  #  |  #  |  #  ",
        [' '] = "     |     |     |     |     ",
        ['-'] = "     |     | ### |     |     ",
    };

    /// <summary>The word's rows, twice as wide where there is room for it.</summary>
    /// <param name="word">Of the letters that are drawn here.</param>
    /// <param name="width">Columns there are.</param>
    /// <param name="cell">What a full cell is drawn with.</param>
    public static IEnumerable<string> Of(string word, int width, char cell)
    {
        int times = word.Length * 13 - 3 <= width ? 2 : 1;
        string gap = new(' ', word.Length * (5 * times + times + 1) - times - 1 <= width ? times + 1 : times);
        for (int row = 0; row < Rows; row++)
            yield return string.Join(gap, word.Select(letter => Row(letter, row, times, cell)));
    }

    private static string Row(char letter, int row, int times, char cell) =>
        string.Concat(Shapes[letter].Split('|')[row].Select(c => new string(c == '#' ? cell : ' ', times)));
}
