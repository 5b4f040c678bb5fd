namespace RigControl.Logbook.Tests.Support;

/// <summary>Doubles of every kind, the awkward ones often.</summary>
internal static class Doubles
{
    private static readonly double[] Awkward =
    [
        0, -0.0, double.NaN, BitConverter.UInt64BitsToDouble(0x7FF8_0000_DEAD_BEEF), BitConverter.UInt64BitsToDouble(0xFFF0_0000_0000_0001),
        double.PositiveInfinity, double.NegativeInfinity, double.Epsilon, -double.Epsilon, double.MaxValue, double.MinValue,
        1L << 53, (1L << 53) + 2.0, -(1L << 53), 9.3e18, 1e300, 1e-300, 0.1 + 0.2,
    ];

    public static double Any(Random random, double resolution) => random.Next(4) switch
    {
        0 => BitConverter.UInt64BitsToDouble((ulong)random.NextInt64(long.MinValue, long.MaxValue)),
        1 => Awkward[random.Next(Awkward.Length)],
        2 => random.NextDouble() * 1000,
        _ => random.Next(-5000, 5000) * resolution,
    };
}
