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
    string Name, double? Value, string Unit, double? StandardUncertainty, (double Low, double High)? Interval95, int Repeat, string Method, string? Note);
