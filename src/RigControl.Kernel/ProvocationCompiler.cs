using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>Gives the names in a provocation their places.</summary>
internal static class ProvocationCompiler
{
    /// <summary>Null where the step provokes nothing.</summary>
    public static CompiledProvocation? Compile(
        Step step, int place, IReadOnlyList<Channel> channels, IReadOnlyList<BoundInterlock> interlocks, Func<LoweredLimit, IInterlock?>? lowered, List<string> reasons)
    {
        if (step.Provocation is not { } provocation)
            return null;
        string where = $"step {place + 1}";
        TripCause cause = provocation.Expected is { } expected ? CauseOf(expected) : TripCause.None;
        int interlock = provocation.Expected is null || cause != TripCause.None ? -1 : Place(provocation.Expected, interlocks, where, reasons);
        uint consequences = 0;
        foreach (string consequence in provocation.Consequences)
            consequences |= 1u << Math.Max(0, Place(consequence, interlocks, where, reasons));
        CompiledCondition[] evidence = [.. provocation.Evidence.Select(c => ConfigurationCompiler.Compile(c, where, channels, reasons))];
        int loweredPlace = provocation.Lowered is { } limit ? Place(limit.Interlock, interlocks, where, reasons) : -1;
        IInterlock? lower = provocation.Lowered is null ? null : lowered?.Invoke(provocation.Lowered);
        if (provocation.Lowered is not null && lower is null)
            reasons.Add($"{where} cannot lower the limit of {provocation.Lowered.Interlock}");
        return new CompiledProvocation(provocation.Name, provocation.Manner, interlock, cause, consequences, evidence, provocation.Allowed, loweredPlace, lower);
    }

    private static TripCause CauseOf(string name) =>
        Enum.GetValues<TripCause>().FirstOrDefault(c => c != TripCause.None && TripCauseNames.Of(c) == name);

    private static int Place(string id, IReadOnlyList<BoundInterlock> interlocks, string where, List<string> reasons)
    {
        for (int i = 0; i < interlocks.Count; i++)
        {
            if (interlocks[i].Id == id)
                return i;
        }

        reasons.Add($"{where} expects something of the interlock {id}, which the rig does not have");
        return -1;
    }
}
