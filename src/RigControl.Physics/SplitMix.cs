namespace RigControl.Physics;

/// <summary>
/// A tiny seeded generator with the same bits on every machine: SplitMix64
/// (Steele, Lea and Flood, Fast Splittable Pseudorandom Number Generators, OOPSLA 2014).
/// </summary>
public struct SplitMix(ulong seed)
{
    private ulong _state = seed;

    /// <summary>Next 64 bits.</summary>
    public ulong Next()
    {
        unchecked
        {
            _state += 0x9E3779B97F4A7C15;
            ulong z = _state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }

    /// <summary>Evenly spread from 0 to below 1.</summary>
    public double Uniform() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Evenly spread from <paramref name="low"/> to below <paramref name="high"/>.</summary>
    public double Uniform(double low, double high) => low + (high - low) * Uniform();

    /// <summary>
    /// Bell-shaped with mean 0 and standard deviation 1: the sum of four even ones, hence never beyond ±3.47.
    /// Nothing transcendental in it, so that it is equal on every machine.
    /// </summary>
    public double Bell() => (Uniform() + Uniform() + Uniform() + Uniform() - 2) * 1.7320508075688772;
}
