using System.Globalization;
using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;

namespace RigControl.Runtime.Failsafe;

/// <summary>Says in words what a verification looks for.</summary>
internal static class VerificationWords
{
    public static string Of(CompiledCondition sign, Configuration configuration) => Tell(sign, configuration, " ");

    /// <summary>The same of what was so before.</summary>
    public static string Past(CompiledCondition sign, Configuration configuration) => Tell(sign, configuration, " was ");

    /// <summary>Of a power that went too late.</summary>
    public static string PowerLate(double gone, TimeSpan allowed) => string.Create(
        CultureInfo.InvariantCulture, $"seen, but the power was gone only after {gone * 1000:0} ms; {allowed.TotalMilliseconds:0} ms are allowed: look at the contactor and its coil circuit");

    private static string Tell(CompiledCondition sign, Configuration configuration, string verb)
    {
        string way = sign.Kind == ConditionKind.Below ? "below" : "above";
        string unit = configuration.ChannelList[sign.Channel].Declaration.Unit;
        string lasting = sign.For > TimeSpan.Zero ? string.Create(CultureInfo.InvariantCulture, $" for {sign.For.TotalSeconds:0.#} s") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{configuration.ChannelList[sign.Channel].Name}{verb}{way} {sign.Value:0.##}{(unit == "1" ? "" : " " + unit)}{lasting}");
    }

    public static string Expected(CompiledProvocation provocation, Configuration configuration)
    {
        string signs = string.Join(", ", provocation.Evidence.Select(e => Of(e, configuration)));
        return Cause(provocation, configuration) is { } cause ? $"{cause} objects, then {signs}" : $"{signs}";
    }

    public static string Seen(CompiledProvocation provocation, Configuration configuration) =>
        Cause(provocation, configuration) is { } cause ? $"{cause} and every sign" : "every sign";

    private static string? Cause(CompiledProvocation provocation, Configuration configuration) =>
        provocation.Expected >= 0 ? configuration.InterlockAt(provocation.Expected).Id
        : provocation.ExpectedCause != TripCause.None ? TripCauseNames.Of(provocation.ExpectedCause) : null;
}
