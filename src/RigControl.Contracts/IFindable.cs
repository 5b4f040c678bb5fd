namespace RigControl.Contracts;

/// <summary>
/// A device plugin that can look for its devices on this machine. Looking harms nothing: nothing is energised, and what does
/// not already speak as such a device is not written to.
/// </summary>
public interface IFindable
{
    /// <summary>What to check where nothing was found, a sentence each.</summary>
    IReadOnlyList<string> WhenNothing { get; }

    /// <summary>Looks and says what is at every place looked at. Never throws for what it finds there.</summary>
    /// <param name="places">Where to look, as a rig file would write it; empty for everywhere.</param>
    IReadOnlyList<Finding> Find(IReadOnlyList<string> places);
}

/// <summary>What is at one place.</summary>
/// <param name="Place">As a rig file writes it.</param>
/// <param name="IsOne">Whether it is a device of the plugin's kind.</param>
/// <param name="Says">What it is, or why that cannot be told: a clause.</param>
/// <param name="Identity">What identifies it, as <see cref="IDevice.Identity"/>; empty where it is none.</param>
public sealed record Finding(string Place, bool IsOne, string Says, IReadOnlyDictionary<string, string> Identity);
