using System.Globalization;
using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;

namespace RigControl.Runtime.Failsafe;

/// <summary>Says in words what a verification looks for.</summary>
internal static class VerificationWords
{
    public static string Of(CompiledCondition sign, Configuration configuration)
    {
        string way = sign.Kind == ConditionKind.Below ? "below" : "above";
        string unit = configuration.ChannelList[sign.Channel].Declaration.Unit;
        string lasting = sign.For > TimeSpan.Zero ? string.Create(CultureInfo.InvariantCulture, $" for {sign.For.TotalSeconds:0.#} s") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{configuration.ChannelList[sign.Channel].Name} {way} {sign.Value:0.##}{(unit == "1" ? "" : " " + unit)}{lasting}");
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
