using System.Collections.Concurrent;
using System.Numerics;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Payloads;
using RigControl.Telemetry.Sampling;

namespace RigControl.Telemetry.Publishing;

/// <summary>
/// The side of telemetry that the scan touches. It takes no lock, wakes nobody and allocates only when something happened;
/// another thread comes by and collects.
/// </summary>
internal sealed class RunSight : IRunSink
{
    /// <summary>Most words that wait to be collected.</summary>
    public const int MostWords = 4096;

    private readonly TimeProvider _time;
    private readonly PendingStops _pending;
    private readonly string[] _interlocks;
    private readonly int _latenessChannel;
    private readonly ConcurrentQueue<Heard> _words = new();
    private readonly Thinner _thinner;
    private (RigState State, ArmingPhase Phase, int Step, int Repeat, bool AtStandstill, uint Latched, TripCause Causes) _last;
    private StatePayload? _state;
    private long _scan;
    private double _lateness;
    private long _lost;

    public RunSight(RunHeader header, TimeSpan scanPeriod, int waiting, TimeProvider time, PendingStops pending)
    {
        (_time, _pending) = (time, pending);
        _interlocks = [.. header.Interlocks.Select(i => i.Id)];
        _latenessChannel = header.Channels.FirstOrDefault(c => c.Name == ChannelNames.ScanLateness)?.Index ?? -1;
        _thinner = new Thinner(header.Channels.Count, scanPeriod, waiting);
    }

    public BlockRing Blocks => _thinner.Ring;

    /// <summary>The latest state; null before the first scan.</summary>
    public StatePayload? State => Volatile.Read(ref _state);

    public long Scan => Interlocked.Read(ref _scan);

    /// <summary>Words that were not collected in time.</summary>
    public long Lost => Interlocked.Read(ref _lost);

    /// <summary>Worst lateness since it was last asked for, s; null where the rig has no such channel.</summary>
    public double? TakeLateness() => _latenessChannel < 0 ? null : Interlocked.Exchange(ref _lateness, 0) / 1000;

    public bool TryCollect(out Heard? word) => _words.TryDequeue(out word);

    public void See(in ScanRecord record, in InputImage image)
    {
        _thinner.Take(record, image);
        Interlocked.Exchange(ref _scan, record.Scan);
        if (_latenessChannel >= 0 && image[_latenessChannel].Maximum > _lateness)
            Interlocked.Exchange(ref _lateness, image[_latenessChannel].Maximum);
        for (int i = 0; i < record.ReceiptCount; i++)
        {
            // Whoever's name it carries: stops that wait together are one command.
            if (record.Receipts[i].Kind == CommandKind.Stop)
                _pending.Hear(record.Receipts[i]);
        }

        var now = (record.State, record.Phase, record.Step, record.Repeat, record.AtStandstill, record.Latched, record.Causes);
        if (_state is null || now != _last)
            Follow(record, now);
    }

    public void Hear(RigEvent happened) => Put(new Heard(happened, "", happened.Name != EventNames.Trip || Stands(happened), _time.GetUtcNow()));

    private void Follow(in ScanRecord record, in (RigState, ArmingPhase, int, int, bool, uint Latched, TripCause Causes) now)
    {
        foreach (string cleared in Names(_last.Latched & ~now.Latched, _last.Causes & ~now.Causes))
            Put(new Heard(null, cleared, false, _time.GetUtcNow()));
        _last = now;
        StatePayload state = new(
            record.State, record.Phase, record.Step + 1, record.Repeat, record.AtStandstill, Names(record.Latched, record.Causes), record.Now, _time.GetUtcNow());
        Volatile.Write(ref _state, state);
    }

    // A trip is told before the scan that latched it is seen, or some scans later with its reaction: then the latch may be gone.
    private bool Stands(RigEvent trip) => trip.Scan > _scan || State is not { } state || state.Trips.Contains(trip.Subject);

    private List<string> Names(uint latched, TripCause causes)
    {
        List<string> names = [];
        for (uint left = latched; left != 0; left &= left - 1)
            names.Add(_interlocks[BitOperations.TrailingZeroCount(left)]);
        for (uint left = (uint)causes; left != 0; left &= left - 1)
            names.Add(TripCauseNames.Of((TripCause)(1u << BitOperations.TrailingZeroCount(left))));
        return names;
    }

    private void Put(Heard word)
    {
        if (_words.Count < MostWords)
            _words.Enqueue(word);
        else
            Interlocked.Increment(ref _lost);
    }
}
