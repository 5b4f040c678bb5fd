namespace RigControl.Analysis.Speed;

/// <summary>
/// When marks passed, better than a sample tells: between two neighbouring marks lies the turn that the second one's reading states, and
/// each of them came within its own step between samples. Of the moments that a whole chain allows, the middle is taken. A slow turn is
/// read in coarse steps of time: each link may be as much longer or shorter as the step of its reading hides.
/// </summary>
internal sealed class MarkChain
{
    private readonly List<Link> _chain = [];

    /// <summary>Moments of the marks, one per call of <see cref="Add"/>, s.</summary>
    public List<double> Marks { get; } = [];

    /// <summary>Takes the next mark.</summary>
    /// <param name="earliest">It came after this, s.</param>
    /// <param name="latest">And not after this, s.</param>
    /// <param name="turn">What its reading states, s.</param>
    /// <param name="slack">By how much the turn may have been longer or shorter, s.</param>
    public void Add(double earliest, double latest, double turn, double slack = 0)
    {
        if (_chain.Count > 0)
        {
            Link before = _chain[^1];
            double low = Math.Max(earliest, before.Low + turn - slack), high = Math.Min(latest, before.High + turn + slack);
            if (low <= high)
            {
                _chain.Add(new Link(low, high, turn, slack));
                return;
            }
        }

        Settle();
        _chain.Add(new Link(earliest, latest, turn, slack));
    }

    /// <summary>Ends the chain: a mark was missed, or nothing more comes.</summary>
    public void Settle()
    {
        int first = Marks.Count;
        Marks.AddRange(_chain.Select(l => 0.5 * (l.Low + l.High)));
        // What comes later tells of what came before.
        for (int k = _chain.Count - 2; k >= 0; k--)
        {
            Link next = _chain[k + 1], now = _chain[k];
            _chain[k] = now with { Low = Math.Max(now.Low, next.Low - next.Turn - next.Slack), High = Math.Min(now.High, next.High - next.Turn + next.Slack) };
            Marks[first + k] = 0.5 * (_chain[k].Low + _chain[k].High);
        }

        _chain.Clear();
    }

    private readonly record struct Link(double Low, double High, double Turn, double Slack);
}
