namespace RigControl.Mutants.Planted;

/// <summary>A mistake that somebody could make, and whose tests must notice it.</summary>
/// <param name="File">From the root of the checkout.</param>
/// <param name="Before">Text that stands there exactly once.</param>
/// <param name="After">What stands there instead.</param>
/// <param name="Wrong">What is wrong then, in a sentence.</param>
/// <param name="Noticed">Test project that must notice, or <see cref="FirmwareTests"/>.</param>
public sealed record PlantedDefect(string File, string Before, string After, string Wrong, string Noticed)
{
    /// <summary>The firmware's own tests in C.</summary>
    public const string FirmwareTests = "shared/board/tests";

    /// <summary>Where the firmware lies.</summary>
    public const string Firmware = "shared/board";

    /// <summary>Whether it is in the firmware, and not in an assembly of ours.</summary>
    public bool IsInFirmware => File.StartsWith(Firmware + "/", StringComparison.Ordinal);

    /// <summary>The project that it is in, from the root of the checkout.</summary>
    public string Project => IsInFirmware ? Firmware : string.Join('/', File.Split('/').Take(2));

    /// <summary>The file's text with the mistake in it.</summary>
    /// <exception cref="InvalidOperationException">The text before does not stand there exactly once.</exception>
    public string Plant(string text) => text.Split(Before).Length == 2
        ? text.Replace(Before, After, StringComparison.Ordinal)
        : throw new InvalidOperationException($"{File} does not hold exactly once: {Before}");
}
