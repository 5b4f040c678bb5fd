using System.Globalization;

namespace RigControl.Benchmarks;

/// <summary>Many measured times, by their order.</summary>
internal sealed class Spread(double[] values)
{
    private readonly double[] _sorted = [.. values.Order()];

    public int Count => _sorted.Length;

    public double Longest => _sorted.Length == 0 ? double.NaN : _sorted[^1];

    /// <summary>The value that a share of all stay below, the share from 0 to 1.</summary>
    public double At(double share) => _sorted.Length == 0 ? double.NaN : _sorted[Math.Min(_sorted.Length - 1, (int)(share * _sorted.Length))];

    public string Text(string unit) => string.Create(CultureInfo.InvariantCulture,
        $"median {At(0.5):0.#} {unit}, 99 % {At(0.99):0.#} {unit}, 99.9 % {At(0.999):0.#} {unit}, longest {Longest:0.#} {unit}");
}
