namespace RigControl.Model.Rig;

/// <summary>One option of a plugin, as a file, a table or a check shows it.</summary>
/// <param name="Name">Kebab-case name in the file.</param>
/// <param name="Meaning">One sentence.</param>
/// <param name="Kind">What kind of value is due.</param>
/// <param name="Unit">Unit into which a quantity is converted; null where none is due.</param>
/// <param name="Minimum">Lowest allowed, in <paramref name="Unit"/>.</param>
/// <param name="Maximum">Highest allowed, in <paramref name="Unit"/>.</param>
/// <param name="Default">Value when left out; null where the option is required.</param>
/// <param name="Choices">The allowed words of a choice; empty otherwise.</param>
public sealed record OptionDescription(
    string Name, string Meaning, OptionKind Kind, string? Unit, double Minimum, double Maximum, object? Default, IReadOnlyList<string> Choices);

/// <summary>What kind of value an option takes.</summary>
public enum OptionKind : byte
{
    /// <summary>A number with a unit; held as double in the option's unit.</summary>
    Quantity,

    /// <summary>A whole number.</summary>
    Count,

    /// <summary>yes or no.</summary>
    Switch,

    /// <summary>Free text.</summary>
    Text,

    /// <summary>The name of a channel of the rig.</summary>
    Channel,

    /// <summary>One of a list of words.</summary>
    Choice,
}
