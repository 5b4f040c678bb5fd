using System.Text.Json.Nodes;

namespace RigControl.Analysis.Tests.Support;

/// <summary>The standard's polynomials of thermocouples, reference junction at ice. Source: NIST Monograph 175 (ITS-90), read; thermo/its90_coefficients.json.</summary>
internal static class Thermocouple
{
    private static readonly JsonNode Data = Reference.Json("thermo/its90_coefficients.json");

    /// <summary>mV of a type at a temperature in degC, within the type's range.</summary>
    public static double Millivolts(string type, double celsius)
    {
        JsonNode piece = Data["its90_forward_mV"]![type]!.AsArray().First(p => celsius <= p![1]!.GetValue<double>())!;
        double sum = Polynomial(Numbers(piece[2]!), celsius);
        if (type != "K" || celsius < 0)
            return sum;
        double[] bump = Numbers(Data["type_K_exponential"]!);
        return sum + bump[0] * Math.Exp(bump[1] * (celsius - bump[2]) * (celsius - bump[2]));
    }

    /// <summary>The published way back: range in degC, and the coefficients from mV to degC.</summary>
    public static (double From, double To, double[] Coefficients) Back(string name)
    {
        JsonNode piece = Data["inverse_mV_to_C"]![name]!;
        return (piece[0]!.GetValue<double>(), piece[1]!.GetValue<double>(), Numbers(piece[2]!));
    }

    /// <summary>Constant first.</summary>
    public static double Polynomial(double[] coefficients, double x) => coefficients.Reverse().Aggregate(0.0, (sum, c) => sum * x + c);

    private static double[] Numbers(JsonNode list) => [.. list.AsArray().Select(n => n!.GetValue<double>())];
}
