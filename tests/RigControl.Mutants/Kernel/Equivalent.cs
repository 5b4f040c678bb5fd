using System.Text.Json;
using RigControl.Mutants.Changing;

namespace RigControl.Mutants.Kernel;

/// <summary>A mutant that nobody can tell from the kernel as it is, or that makes no difference that matters, and why.</summary>
/// <param name="File">From the root of the checkout.</param>
/// <param name="Source">The line, without the space around it.</param>
/// <param name="Before">What is replaced, in one line.</param>
/// <param name="After">What stands there instead, in one line.</param>
/// <param name="Why">Why no test can tell them apart, in a sentence.</param>
public sealed record Equivalent(string File, string Source, string Before, string After, string Why)
{
    private const string Place = "tests/RigControl.Mutants/equivalent.json";

    /// <summary>All that are known, <c>equivalent.json</c> beside the project.</summary>
    public static IReadOnlyList<Equivalent> All { get; } = JsonSerializer.Deserialize<Equivalent[]>(Checkout.Read(Place), JsonSerializerOptions.Web)
        ?? throw new InvalidOperationException($"{Place} is empty");

    /// <summary>Why a mutant cannot be told apart; null where it can.</summary>
    public static string? WhyNot(Mutation mutation) => All.FirstOrDefault(e =>
        e.File == mutation.File && e.Source == mutation.Source && e.Before == Mutation.OneLine(mutation.Before) && e.After == Mutation.OneLine(mutation.After))?.Why;
}
