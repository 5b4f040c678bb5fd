namespace RigControl.Physics;

/// <summary>What stands between a truth and its reading. The zero value passes the truth unchanged.</summary>
/// <param name="Deviation">Standard deviation of the noise, in the quantity's unit.</param>
/// <param name="Resolution">Smallest step of the reading, in the quantity's unit; 0 for none.</param>
/// <param name="Offset">Added to every reading, in the quantity's unit.</param>
/// <param name="GainError">Share by which the reading is too large.</param>
public readonly record struct SensorNoise(double Deviation, double Resolution, double Offset, double GainError)
{
    /// <summary>One reading of a truth.</summary>
    public double Read(double truth, ref SplitMix chance)
    {
        double value = truth * (1 + GainError) + Offset;
        if (Deviation > 0)
            value += Deviation * chance.Bell();
        return Resolution > 0 ? Math.Round(value / Resolution) * Resolution : value;
    }
}
