using System.Text.Json;
using System.Text.Json.Serialization;
using RigControl.Model.Records;

namespace RigControl.Logbook.Texts;

/// <summary>A figure's budget as a JSON array, the largest part first; null for none.</summary>
internal static class BudgetData
{
    public static string? Write(IReadOnlyList<Contribution> budget) =>
        budget.Count == 0 ? null : JsonSerializer.Serialize([.. budget], BudgetContext.Default.ContributionArray);

    /// <exception cref="InvalidDataException">The text is no budget.</exception>
    public static IReadOnlyList<Contribution> Read(string? text)
    {
        if (text is null)
            return [];
        try
        {
            Contribution[] budget = JsonSerializer.Deserialize(text, BudgetContext.Default.ContributionArray) ?? [];
            return budget.All(c => c?.Name is not null) ? budget : throw new InvalidDataException("a figure's budget has a line without a name");
        }
        catch (JsonException fault)
        {
            throw new InvalidDataException($"a figure's budget cannot be read: {fault.Message}", fault);
        }
    }
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals)]
[JsonSerializable(typeof(Contribution[]))]
internal sealed partial class BudgetContext : JsonSerializerContext;
