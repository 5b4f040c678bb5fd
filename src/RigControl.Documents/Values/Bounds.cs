namespace RigControl.Documents.Values;

/// <summary>The unit a quantity is converted into and the range it must lie in, both ends included.</summary>
internal sealed record Bounds(string Unit, double Minimum, double Maximum)
{
    public bool Hold(double value) => value >= Minimum && value <= Maximum;

    public override string ToString() => (double.IsFinite(Minimum), double.IsFinite(Maximum)) switch
    {
        (true, true) => $"from {Show(Minimum)} to {Show(Maximum)}",
        (true, false) => $"of at least {Show(Minimum)}",
        (false, true) => $"of at most {Show(Maximum)}",
        _ => $"in {Unit}",
    };

    private string Show(double value) => $"{Quantity.Show(value)} {Unit}".TrimEnd();
}
