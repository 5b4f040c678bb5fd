using RigControl.Kernel;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Recording;
using RigControl.Runtime.Rigs;

namespace RigControl.Runtime.Scanning;

/// <summary>
/// One tick, the same on a virtual and on a real clock: take the samples in, fold, drain the inbox, scan, hand the record
/// on. Who calls it decides what time it is and how samples and outputs travel.
/// </summary>
internal sealed class ScanCycle
{
    /// <summary>After this time a trip is told even if no device has confirmed the stop output.</summary>
    private static readonly TimeSpan LongestReaction = TimeSpan.FromMilliseconds(100);

    /// <summary>Share of the recorder's queue up to which an event is handed on at once: a storm of them may not fill it while the disk is stuck.</summary>
    private const double RoomForUrgency = 0.25;

    private readonly Configuration _configuration;
    private readonly Narrator _narrator;
    private readonly RunWatch _watch;
    private readonly ChunkQueue _queue;
    private readonly TimeSpan _patience;
    private readonly long[] _watermarks;
    private readonly List<RigEvent> _told = [];
    private readonly List<RigEvent> _unmeasured = [];
    private readonly Command[] _commands = new Command[Capacity.Commands];
    private KernelState _state;
    private FoldState _fold;
    private InputImage _image;
    private RecordChunk _chunk;

    /// <param name="patience">How long to wait for an empty chunk: for ever on a virtual clock, not at all on a real one.</param>
    public ScanCycle(AssembledRig rig, CommandInbox inbox, RunWatch watch, ChunkQueue queue, TimeSpan patience)
    {
        (_configuration, Inbox, _watch, _queue, _patience) = (rig.Configuration, inbox, watch, queue, patience);
        _narrator = new Narrator(rig, inbox.IssuerOf);
        _watermarks = new long[rig.Devices.Count];
        _chunk = queue.Rent(patience) ?? throw new InvalidOperationException("a new queue has empty chunks");
    }

    public CommandInbox Inbox { get; }

    /// <summary>
    /// When the outputs of a scan were out, or null while they are on their way. Left out on a virtual clock, where they are
    /// out within the scan.
    /// </summary>
    public Func<long, TimeSpan?>? OutAt { get; init; }

    /// <summary>State after the latest scan.</summary>
    public RigState State => _state.State;

    /// <summary>Number of the latest scan.</summary>
    public long ScanNumber => _state.Scan;

    /// <summary>Time of the latest scan.</summary>
    public TimeSpan Now { get; private set; }

    /// <summary>Whether the record fell behind so far that a chunk could not be handed on.</summary>
    public bool RecordLost { get; private set; }

    /// <summary>Whether the chunk in hand holds an event, which a killed process may not take with it, and the recorder has room to hurry.</summary>
    public bool IsUrgent => _chunk.Events.Count > 0 && _queue.Backlog <= RoomForUrgency;

    /// <summary>Takes a device's samples into fold and record.</summary>
    public void TakeIn(int device, ReadOnlySpan<Sample> samples)
    {
        foreach (ref readonly Sample sample in samples)
            Fold.Add(_configuration.ChannelList, ref _fold, sample);
        _chunk.Devices[device].Add(samples);
        _watermarks[device] += samples.Length;
    }

    /// <summary>Adds an event that the host itself has to tell.</summary>
    public void Note(RigEvent happened)
    {
        _chunk.Events.Add(happened);
        _watch.Hear(happened);
    }

    /// <summary>Folds, scans and records. Returns what the rig is to do.</summary>
    public OutputImage Scan(TimeSpan now)
    {
        Now = now;
        Fold.Close(_configuration.ChannelList, ref _fold, now, ref _image);
        int commands = Inbox.Drain(_commands);
        ScanInput input = new(now, _image, _commands.AsSpan(0, commands));
        ref ScanRecord record = ref _chunk.Scans[_chunk.ScanCount];
        ScanKernel.Scan(_configuration, ref _state, input, ref record);
        // Counted only now: a scan in which an interlock hangs has said nothing.
        _chunk.ScanCount++;
        for (int i = 0; i < _watermarks.Length; i++)
            record.Watermarks[i] = _watermarks[i];
        Tell(record);
        OutputImage outputs = record.Outputs;
        if (_chunk.ScanCount == RecordChunk.ScanCapacity)
            HandOn();
        return outputs;
    }

    /// <summary>Tells the trips that still wait for their reaction to be measured: after the last scan nothing may stay untold.</summary>
    public void TellRest(TimeSpan now) => MeasureReactions(now, TimeSpan.Zero);

    /// <summary>Hands the chunk in hand to the recorder, full or not.</summary>
    public void HandOn()
    {
        if (_chunk.IsEmpty)
            return;
        RecordChunk? next = _queue.Rent(_patience);
        if (next is null)
        {
            // Nothing may grow without bound: what cannot be recorded is not run either.
            RecordLost = true;
            _chunk.Clear();
            return;
        }

        _queue.Post(_chunk);
        _chunk = next;
    }

    /// <summary>
    /// Hands on what a scan that has been given up left in hand, with what there is to say of it. Only for whoever has made sure
    /// that the scan's thread will not come back.
    /// </summary>
    public void HandOnInstead(RigEvent happened)
    {
        NoteTold();
        if (_unmeasured.Count > 0)
            TellRest(happened.At);
        Note(happened);
        _queue.Post(_chunk);
    }

    private void Tell(in ScanRecord record)
    {
        _narrator.Tell(record, _told);
        NoteTold();
        if (_unmeasured.Count > 0)
            MeasureReactions(record.Now, LongestReaction);
        _watch.See(record, _image);
    }

    private void NoteTold()
    {
        for (int i = 0; i < _told.Count; i++)
        {
            if (OutAt is not null && _told[i].Name == EventNames.Trip)
                _unmeasured.Add(_told[i]);
            else
                Note(_told[i]);
        }

        _told.Clear();
    }

    // A trip is told with its reaction, from the reading that showed it to the moment the stop output was out; without one
    // where no device has confirmed it, for a time that nobody measured is not a reaction.
    private void MeasureReactions(TimeSpan now, TimeSpan longest)
    {
        foreach (RigEvent trip in _unmeasured.ToArray())
        {
            TimeSpan? outAt = OutAt!(trip.Scan);
            if (outAt is null && now - trip.At < longest)
                continue;
            Dictionary<string, object> data = (Dictionary<string, object>)trip.Data;
            if (outAt is { } known)
                data["reaction"] = known.TotalSeconds - (double)data["at"];
            else
                data.Remove("reaction");
            _unmeasured.Remove(trip);
            Note(trip);
        }
    }
}
