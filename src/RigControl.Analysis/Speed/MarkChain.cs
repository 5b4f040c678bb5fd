namespace RigControl.Analysis.Speed;

/// <summary>
/// When marks passed, better than a sample tells: between two neighbouring marks lies the turn that the second one's reading states, and
/// each of them came within its own step between samples. Of the moments that all of a chain allow, the middle is taken.
/// </summary>
internal sealed class MarkChain
{
    private readonly List<int> _places = [];
    private readonly List<double> _since = [];
    private double _earliest, _latest, _length;

    /// <summary>Moments of the marks, one per call of <see cref="Add"/>, s.</summary>
    public List<double> Marks { get; } = [];

    /// <summary>Takes the next mark.</summary>
    /// <param name="earliest">It came after this, s.</param>
    /// <param name="latest">And not after this, s.</param>
    /// <param name="turn">What its reading states, s.</param>
    public void Add(double earliest, double latest, double turn)
    {
        double since = _length + turn;
        double low = Math.Max(_earliest, earliest - since), high = Math.Min(_latest, latest - since);
        if (_places.Count == 0 || low > high)
        {
            Settle();
            (since, low, high) = (0, earliest, latest);
        }

        (_earliest, _latest, _length) = (low, high, since);
        _places.Add(Marks.Count);
        _since.Add(since);
        Marks.Add(double.NaN);
    }

    /// <summary>Ends the chain: a mark was missed, or nothing more comes.</summary>
    public void Settle()
    {
        double first = 0.5 * (_earliest + _latest);
        for (int k = 0; k < _places.Count; k++)
            Marks[_places[k]] = first + _since[k];
        _places.Clear();
        _since.Clear();
        _length = 0;
    }
}
