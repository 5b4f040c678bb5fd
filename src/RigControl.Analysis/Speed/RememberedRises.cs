namespace RigControl.Analysis.Speed;

/// <summary>Rises that were simulated, by their parameters, each once; from one thread at a time.</summary>
internal sealed class RememberedRises
{
    // Twice the parameters that a fit has, and the fit itself; beyond that the oldest goes.
    private const int Most = 16;

    private readonly Queue<(double[] Parameters, double[] Rise)> _rises = new();

    /// <param name="simulate">Called where these parameters were not asked for before.</param>
    public double[] Of(ReadOnlySpan<double> parameters, Func<double[], double[]> simulate)
    {
        foreach ((double[] known, double[] rise) in _rises)
        {
            if (parameters.SequenceEqual(known))
                return rise;
        }

        double[] asked = parameters.ToArray(), simulated = simulate(asked);
        if (_rises.Count == Most)
            _rises.Dequeue();
        _rises.Enqueue((asked, simulated));
        return simulated;
    }
}
