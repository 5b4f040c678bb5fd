using System.Text.Json;

namespace RigControl.Mutants.Planted;

/// <summary>The list of planted defects, <c>planted.json</c> beside the project.</summary>
public static class PlantedList
{
    private const string Place = "tests/RigControl.Mutants/planted.json";

    /// <summary>All of them, in the list's order.</summary>
    public static IReadOnlyList<PlantedDefect> All { get; } = JsonSerializer.Deserialize<PlantedDefect[]>(Checkout.Read(Place), JsonSerializerOptions.Web)
        ?? throw new InvalidOperationException($"{Place} is empty");

    /// <summary>What is wrong with an entry, in a sentence; null where it can be planted.</summary>
    public static string? Problem(PlantedDefect defect)
    {
        if (!File.Exists(Checkout.At(defect.File)))
            return $"there is no {defect.File}";
        if (defect.Before == defect.After || Checkout.Read(defect.File).Split(defect.Before).Length != 2)
            return $"{defect.File} does not hold exactly once: {defect.Before}";
        if (!defect.Wrong.EndsWith('.') || defect.Wrong.Contains('|', StringComparison.Ordinal))
            return $"what is wrong is not said in a sentence: {defect.Wrong}";
        return Directory.Exists(Checkout.At(defect.Noticed == PlantedDefect.FirmwareTests ? defect.Noticed : "tests/" + defect.Noticed))
            ? null
            : $"there is no {defect.Noticed} to notice it";
    }
}
