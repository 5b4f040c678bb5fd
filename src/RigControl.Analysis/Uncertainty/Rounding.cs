using System.Globalization;

namespace RigControl.Analysis.Uncertainty;

/// <summary>Numbers as a person should read them: to two digits of their uncertainty (JCGM 100:2008, 7.2.6; from memory).</summary>
public static class Rounding
{
    // Smaller numbers, such as a drag per square of a speed, are shown with a power of ten.
    private const double Smallest = 1e-4;

    /// <summary>Value and uncertainty to the same place; six digits of the value where there is no uncertainty.</summary>
    public static (string Value, string Uncertainty) Of(double value, double? uncertainty)
    {
        if (uncertainty is not { } u || !(u > 0) || !double.IsFinite(u))
            return (value.ToString("G6", CultureInfo.InvariantCulture), "");
        double largest = Math.Max(Math.Abs(value), u);
        if (largest < Smallest)
        {
            int power = (int)Math.Floor(Math.Log10(largest));
            (string v, string by) = Of(value * Math.Pow(10, -power), u * Math.Pow(10, -power));
            string ten = string.Create(CultureInfo.InvariantCulture, $"e{power}");
            return (v + ten, by + ten);
        }

        int places = 1 - (int)Math.Floor(Math.Log10(u));
        // 0.0996 has two digits as 0.10, not as 0.100.
        if (Math.Round(u * Math.Pow(10, places)) >= 100)
            places--;
        return (Text(value, places), Text(u, places));
    }

    private static string Text(double value, int places)
    {
        if (places >= 0)
            return value.ToString("F" + Math.Min(places, 15).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        double unit = Math.Pow(10, -places);
        return (Math.Round(value / unit) * unit).ToString("F0", CultureInfo.InvariantCulture);
    }
}
