using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Runtime.Failsafe;

/// <summary>
/// Looks at every sign of one provocation by itself. What was so before anything was provoked shows nothing of it, however much the
/// other signs show: a sensor that sticks at its answer would pass beside those that work.
/// </summary>
internal sealed class SignWatch(CompiledProvocation provocation, Configuration configuration)
{
    // How shortly before the provocation a sign must still not have been there: a board stops by itself, and what it did may be read before why.
    private static readonly TimeSpan Fresh = VerificationParts.SignalAllowed;

    private readonly TimeSpan?[] _otherwise = new TimeSpan?[provocation.Evidence.Length];
    private TimeSpan? _provoked;

    /// <summary>What stands against the first sign that shows nothing, a sentence; null where each shows what it is there for.</summary>
    public string? Objection => Signs.Select(ObjectionTo).FirstOrDefault(o => o is not null);

    /// <summary>What a sign that counts does not show, a sentence; null where all of them show the stop.</summary>
    public string? Reserve => Signs.Select(ReserveOf).FirstOrDefault(r => r is not null);

    private IEnumerable<int> Signs => Enumerable.Range(0, _otherwise.Length);

    /// <summary>A scan with the article driven and nothing provoked yet.</summary>
    public void Before(in InputImage image, TimeSpan now)
    {
        for (int i = 0; i < _otherwise.Length; i++)
        {
            ref readonly ImageEntry entry = ref image[provocation.Evidence[i].Channel];
            // A reading that cannot be used is neither.
            if (entry.IsUsable && !Holds(provocation.Evidence[i], entry))
                _otherwise[i] = now;
        }
    }

    /// <summary>The scan that provoked.</summary>
    public void Provoked(TimeSpan now) => _provoked ??= now;

    /// <summary>Whether a channel's going low is among the signs and shows something.</summary>
    public bool ShowsEndOf(int channel) =>
        Signs.Any(i => provocation.Evidence[i] is { Kind: ConditionKind.Below } sign && sign.Channel == channel && ObjectionTo(i) is null);

    public static bool Holds(CompiledCondition sign, in ImageEntry entry) =>
        entry.IsUsable && (sign.Kind == ConditionKind.Below ? entry.Maximum < sign.Value : entry.Minimum > sign.Value);

    private SignRule RuleOf(int sign) => SignRules.Of(provocation, provocation.Evidence[sign], configuration);

    private bool IsFresh(int sign) => _otherwise[sign] is { } at && _provoked - at <= Fresh;

    private string? ObjectionTo(int sign) => RuleOf(sign) switch
    {
        SignRule.New when !IsFresh(sign) => $"{WasSo(sign)} before anything was provoked; it shows nothing: look at what reads it",
        SignRule.Alive when _otherwise[sign] is null =>
            $"{WasSo(sign)} all the time that the article was driven; it shows nothing: look at its sensor, take one that tells so little, or write a higher throttle under verification, if the article is harmless at it",
        _ => null,
    };

    private string? ReserveOf(int sign) => RuleOf(sign) == SignRule.Alive && !IsFresh(sign)
        ? $"{WasSo(sign)} before it was cut, and shows only that its sensor works: in the rise it read more"
        : null;

    private string WasSo(int sign) => VerificationWords.Past(provocation.Evidence[sign], configuration);
}
