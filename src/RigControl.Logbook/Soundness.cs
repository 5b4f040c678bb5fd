namespace RigControl.Logbook;

/// <summary>What a look at the whole logbook found.</summary>
/// <param name="Runs">Runs looked at.</param>
/// <param name="Scans">Scan records read.</param>
/// <param name="Samples">Samples read.</param>
/// <param name="Damage">Sentences about what is damaged or changed; empty for a sound logbook.</param>
/// <param name="Notes">Sentences about what is no damage and worth knowing.</param>
public sealed record Soundness(int Runs, long Scans, long Samples, IReadOnlyList<string> Damage, IReadOnlyList<string> Notes)
{
    public bool IsSound => Damage.Count == 0;
}
