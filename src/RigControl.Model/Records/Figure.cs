namespace RigControl.Model.Records;

/// <summary>A derived number, or the reason why there is none.</summary>
/// <param name="Name">Kebab-case name of the figure.</param>
/// <param name="Value">In <paramref name="Unit"/>; null where it cannot be had from the data.</param>
/// <param name="Unit">Unit symbol.</param>
/// <param name="StandardUncertainty">In <paramref name="Unit"/>; null where it is not known.</param>
/// <param name="Interval95">Lower and upper end of the 95 % interval; null where it is not known.</param>
/// <param name="Repeat">Repeat of the procedure it belongs to, from 1; 0 for the whole run.</param>
/// <param name="Method">How it was computed, in a few words.</param>
/// <param name="Note">Why there is no value, or what to mind.</param>
public sealed record Figure(
    string Name, double? Value, string Unit, double? StandardUncertainty, (double Low, double High)? Interval95, int Repeat, string Method, string? Note)
{
    /// <summary>What the uncertainty is made of, the largest part first; empty where it comes from one source alone or was not kept.</summary>
    public IReadOnlyList<Contribution> Budget { get; init; } = [];

    /// <summary>Equal in every word and number, line by line of the budget.</summary>
    public bool Equals(Figure? other) => other is not null
        && (Name, Value, Unit, StandardUncertainty) == (other.Name, other.Value, other.Unit, other.StandardUncertainty)
        && (Interval95, Repeat, Method, Note) == (other.Interval95, other.Repeat, other.Method, other.Note)
        && Budget.SequenceEqual(other.Budget);

    public override int GetHashCode() => HashCode.Combine(Name, Value, Unit, Repeat);
}
