namespace RigControl.Telemetry.Links;

/// <summary>
/// How long to wait before the next try: doubling up to a cap, and half of it left to chance, so that the rigs of a site do
/// not all come back in the same moment.
/// </summary>
/// <param name="chance">Gives a number from 0 to below 1.</param>
internal sealed class Backoff(TimeSpan first, TimeSpan longest, Func<double> chance)
{
    private int _failures;

    public TimeSpan Next()
    {
        double full = Math.Min(first.TotalSeconds * Math.Pow(2, Math.Min(_failures++, 30)), longest.TotalSeconds);
        return TimeSpan.FromSeconds(full * (0.5 + chance() / 2));
    }

    /// <summary>A link held: begin anew.</summary>
    public void Reset() => _failures = 0;
}
