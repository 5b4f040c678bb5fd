using RigControl.Analysis.Traces;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Figures;

/// <summary>What a figure may look at.</summary>
/// <param name="Trace">The recorded run.</param>
/// <param name="Segment">The repeat in question.</param>
/// <param name="Article">As its file declared it.</param>
/// <param name="RestSpeed">Speed at which a coast-down counts as done, rpm.</param>
public sealed record FigureContext(Trace Trace, Segment Segment, Article Article, double RestSpeed)
{
    /// <summary>Speed, rpm, by which a coast-down counts as done unless the procedure says otherwise.</summary>
    public const double UsualRestSpeed = 60;

    /// <summary>The speed below which the procedure's first coast-down ends.</summary>
    public static double RestSpeedOf(Procedure procedure) => procedure.Steps
        .Where(s => s.Kind == StepKind.CoastDown)
        .SelectMany(s => s.Until)
        .Where(c => c is { Channel: Model.Signals.ChannelNames.RotorSpeed, Kind: ConditionKind.Below })
        .Select(c => c.Value)
        .FirstOrDefault(UsualRestSpeed);

    /// <summary>A channel's samples from rise to the end of the repeat, or the reason why there are none.</summary>
    public Series Need(string channel) => Trace.Find(channel)?.Between(Segment.RiseAt, Segment.EndAt) is { Count: > 1 } series
        ? series
        : throw new NoFigureException($"the record has no usable {channel}");
}

/// <summary>Why a figure cannot be had from the data.</summary>
public sealed class NoFigureException(string reason) : Exception(reason);
