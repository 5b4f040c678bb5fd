using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Runtime.Scanning;

/// <summary>
/// What others may see of a running rig: the latest record and image on request, every event, and whether the run is over.
/// Nothing can go back into the scan from here.
/// </summary>
public sealed class RunWatch(Action<RigEvent>? onEvent, ScanObserver? everyScan)
{
    /// <summary>Sees and hears what this watch does; null for nobody.</summary>
    public IRunSink? Sink { get; init; }

    /// <summary>Hears once that the sink failed and is told nothing any more.</summary>
    public Action<string>? SinkFailed { get; init; }

    /// <summary>Whether this is a verification, which goes on behind the safe-stops that it provokes.</summary>
    public bool Verifies { get; init; }

    /// <summary>How long standstill is waited for before the run ends without it.</summary>
    public TimeSpan LongestRunDown { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>How much longer, where only somebody's look is missing for it.</summary>
    private static readonly TimeSpan TimeToLook = TimeSpan.FromMinutes(2);

    private readonly Lock _lock = new();
    private ScanRecord _latest;
    private InputImage _image;
    private TimeSpan _stoppedAt;
    private volatile bool _wanted = true;
    private bool _wasArmed;
    private volatile bool _sinkIsOut;

    /// <summary>Whether the procedure is done or the rig stopped, and the rotor has come to rest.</summary>
    public bool IsOver { get; private set; }

    /// <summary>Whether the rig was ever armed.</summary>
    public bool WasArmed => _wasArmed;

    /// <summary>Whether the procedure is done and nothing has stopped the rig since.</summary>
    public bool Completed { get; private set; }

    /// <summary>Why the repeats ended before their number was done, or null.</summary>
    public string? EndedEarly { get; private set; }

    /// <summary>The latest record and image; at most one scan old once asked for.</summary>
    public (ScanRecord Record, InputImage Image) Latest()
    {
        lock (_lock)
        {
            _wanted = true;
            return (_latest, _image);
        }
    }

    internal void Hear(RigEvent happened)
    {
        if (happened.Name == EventNames.RepeatsEnded)
            EndedEarly = happened.Text;
        onEvent?.Invoke(happened);
        if (!_sinkIsOut)
            Guarded(happened);
    }

    internal void See(in ScanRecord record, in InputImage image)
    {
        if (_wanted)
        {
            lock (_lock)
            {
                _latest = record;
                _image = image;
                _wanted = false;
            }
        }

        if (record.State != record.Before)
            FollowState(record);
        Completed = record.Finished && record.State != RigState.SafeStop;
        if (record.Finished || (_wasArmed && !Verifies && record.State == RigState.SafeStop))
            IsOver |= !_wasArmed || record.AtStandstill || record.Now - _stoppedAt > LongestRunDown + (record.AwaitsLook ? TimeToLook : TimeSpan.Zero);
        everyScan?.Invoke(record);
        if (Sink is not null && !_sinkIsOut)
            Guarded(record, image);
    }

    // Whoever only watches must never cost the scan, not even by a fault of its own.
    private void Guarded(in ScanRecord record, in InputImage image)
    {
        try
        {
            Sink!.See(record, image);
        }
#pragma warning disable CA1031 // Any fault of a sink ends the sink and nothing else.
        catch (Exception e)
#pragma warning restore CA1031
        {
            LeaveOut(e);
        }
    }

    private void Guarded(RigEvent happened)
    {
        try
        {
            Sink?.Hear(happened);
        }
#pragma warning disable CA1031 // Any fault of a sink ends the sink and nothing else.
        catch (Exception e)
#pragma warning restore CA1031
        {
            LeaveOut(e);
        }
    }

    private void LeaveOut(Exception fault)
    {
        _sinkIsOut = true;
        SinkFailed?.Invoke(fault.Message);
    }

    private void FollowState(in ScanRecord record)
    {
        _wasArmed |= record.State == RigState.Arming;
        if (record.State is RigState.SafeStop or RigState.Idle)
            _stoppedAt = record.Now;
    }
}

/// <summary>Sees every scan record on the scan's thread; must return at once.</summary>
public delegate void ScanObserver(in ScanRecord record);
