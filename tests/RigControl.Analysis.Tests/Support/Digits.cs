namespace RigControl.Analysis.Tests.Support;

/// <summary>Correct digits: minus the decimal logarithm of the relative error, as NIST counts them.</summary>
internal static class Digits
{
    public static void AtLeast(double digits, double certified, double found, string what)
    {
        double error = certified == 0 ? Math.Abs(found) : Math.Abs((found - certified) / certified);
        double correct = error == 0 ? 17 : -Math.Log10(error);
        Assert.True(correct >= digits, $"{what}: {found:R} agrees with the certified {certified:R} in {correct:0.0} digits, {digits} are asked for");
    }
}
