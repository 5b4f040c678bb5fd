namespace RigControl.Documents.Text;

/// <summary>Finds the word that somebody probably meant.</summary>
internal static class Nearest
{
    // Beyond this nothing that a file knows comes near; it also bounds the time that a hostile key can cost.
    private const int LongestWord = 64;

    /// <summary>The known word with the fewest slips from the written one; null when none is near enough to be meant.</summary>
    public static string? Of(string written, IEnumerable<string> known)
    {
        if (written.Length > LongestWord)
            return null;
        string lower = written.ToLowerInvariant().Replace('_', '-').Replace(' ', '-');
        var best = known.Select(word => (Word: word, Slips: Slips(lower, word))).OrderBy(b => b.Slips).FirstOrDefault();
        return best.Word is not null && best.Slips <= Math.Max(2, best.Word.Length / 3) && best.Slips < best.Word.Length ? best.Word : null;
    }

    /// <summary>Letters inserted, left out, changed or swapped with their neighbour.</summary>
    internal static int Slips(string a, string b)
    {
        int[,] slips = new int[a.Length + 1, b.Length + 1];
        for (int i = 0; i <= a.Length; i++)
            slips[i, 0] = i;
        for (int j = 0; j <= b.Length; j++)
            slips[0, j] = j;
        for (int i = 1; i <= a.Length; i++)
        for (int j = 1; j <= b.Length; j++)
        {
            int change = slips[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            slips[i, j] = Math.Min(change, 1 + Math.Min(slips[i - 1, j], slips[i, j - 1]));
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                slips[i, j] = Math.Min(slips[i, j], slips[i - 2, j - 2] + 1);
        }
        return slips[a.Length, b.Length];
    }
}
