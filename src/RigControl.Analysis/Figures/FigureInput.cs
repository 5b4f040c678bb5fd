using RigControl.Analysis.Answers;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>What figures are computed from.</summary>
/// <param name="Article">As its file declared it; null where a trace came without one.</param>
/// <param name="RestSpeed">Speed at which a coast-down counts as done, rpm.</param>
public sealed record FigureInput(Trace Trace, Article? Article, double RestSpeed)
{
    // Read once, and again for another trace: a copy with other channels must not keep the readings of the first.
    private Heard? _heard;

    /// <summary>The time, speed, match and surroundings that some figures are asked at.</summary>
    public AskedAt Asked { get; init; } = AskedAt.Nothing;

    /// <summary>Temperatures in degC, by channel, that time-to-limit and continuous-current are asked for; the builder's own, never a default.</summary>
    public IReadOnlyDictionary<string, double> TemperatureLimits { get; init; } = new Dictionary<string, double>();

    /// <summary>What a person typed during the run, in order.</summary>
    public IReadOnlyList<Answer> Answers { get; init; } = [];

    /// <summary>Something that the article declares, as well known as its builder says: exactly, where nothing is said.</summary>
    /// <param name="key">Of its uncertainty in the article's file.</param>
    internal Input Declared(string key, double value) => new(SharedPart.Declared(key), value, Math.Abs(value) * (Article?.Uncertainty.GetValueOrDefault(key) ?? 0));

    /// <summary>The tachometer's readings; null without the channel.</summary>
    internal SpeedSignal? Speed => (_heard is { } heard && ReferenceEquals(heard.Of, Trace) ? heard : _heard = Listen()).Speed;

    private Heard Listen() => new(Trace, Trace.Find(ChannelNames.RotorSpeed) is { Count: > 1 } series ? SpeedSignal.Of(series) : null);

    private sealed record Heard(Trace Of, SpeedSignal? Speed);
}
