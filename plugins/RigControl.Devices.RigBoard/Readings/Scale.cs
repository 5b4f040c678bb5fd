using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Devices.RigBoard.Readings;

/// <summary>Converter counts to a quantity along a straight line: 1024 counts are the whole range.</summary>
/// <param name="PerCount">Quantity of one count.</param>
/// <param name="Zero">Counts at which the quantity is 0.</param>
internal readonly record struct Scale(double PerCount, double Zero)
{
    private const double Counts = 1024;

    /// <summary>From 0 at no counts to <paramref name="fullScale"/>.</summary>
    public static Scale FromZero(double fullScale) => new(fullScale / Counts, 0);

    /// <summary>From minus to plus <paramref name="fullScale"/>, 0 in the middle of the range.</summary>
    public static Scale AroundMiddle(double fullScale) => new(fullScale * 2 / Counts, Counts / 2);

    public double Of(double counts) => (counts - Zero) * PerCount;

    /// <summary>Whether a reading is at an end of the range, where the truth may lie beyond. No counts are an end only where negative values exist.</summary>
    public bool Ends(ushort counts) => counts == Reading.End || (counts == 0 && Zero > 0);
}
