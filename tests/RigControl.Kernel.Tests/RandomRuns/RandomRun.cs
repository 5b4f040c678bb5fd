namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>
/// A run drawn from a seed: an operator who mostly means well, interlocks that object now and then, readings that spike,
/// fail and freeze, scans that come late and a clock that is set. The rotor is a toy that follows the throttle.
/// </summary>
internal sealed class RandomRun
{
    private readonly Random _random;
    private readonly KernelBench _bench;
    private readonly double _faults;
    private readonly List<Moment> _moments = [];
    private double _speed;
    private double _seen;
    private bool _shut;

    public RandomRun(int seed, int scans)
    {
        _random = new Random(seed);
        Rig = new RandomRig(_random);
        _bench = Rig.Bench();
        _faults = _random.Next(4) * 0.001;
        for (int i = 0; i < scans; i++)
            Scan();
    }

    public RandomRig Rig { get; }

    public IReadOnlyList<Moment> Moments => _moments;

    public bool Reached(RigState state) => _moments.Any(m => m.State == state);

    /// <summary>All faults end; an operator does what is due for some time. Whether the output was held at a level meanwhile.</summary>
    public bool ReachesHoldOnceFaultsEnd(double seconds)
    {
        foreach (ScriptedInterlock interlock in Rig.Interlocks)
            (interlock.Action, interlock.Throws) = (DemandAction.Proceed, false);
        bool held = false;
        for (double end = _seen + seconds; _seen < end && !held; held = _bench.Rig == RigState.Hold || _bench.Outputs.Gate)
        {
            Turn();
            ReadSoundly();
            Put([.. Due().Take(1).Select(kind => _bench.Act(kind))], _bench.Configuration.ScanPeriod);
        }

        return held;
    }

    private void Scan()
    {
        Turn();
        Read();
        foreach (ScriptedInterlock interlock in Rig.Interlocks)
            Flicker(interlock);
        Put(Commands(), Gap());
    }

    private void Put(Command[] commands, TimeSpan gap)
    {
        bool first = _moments.Count == 0;
        if (!first)
            _bench.Now += gap - _bench.Configuration.ScanPeriod;
        _seen += first || gap <= TimeSpan.Zero || gap > 10 * _bench.Configuration.ScanPeriod ? 0 : gap.TotalSeconds;
        (double, double)? speed = Number(ChannelNames.RotorSpeed), receiver = Number(ChannelNames.ReceiverPulse);
        _bench.Scan(commands);
        _moments.Add(new Moment
        {
            Seen = _seen, Speed = speed, Receiver = receiver, Shut = _shut, Commands = commands,
            Asked = [.. Rig.Interlocks.Select(i => i.Throws ? DemandAction.CutPower : i.Action)],
            Receipts = _bench.Record.Receipts[.._bench.Record.ReceiptCount].ToArray(),
            Before = _bench.Record.Before, State = _bench.Record.State, Step = _bench.Record.Step,
            Latched = _bench.Record.Latched, Causes = _bench.Record.Causes, Outputs = _bench.Outputs,
        });
    }

    private void Turn()
    {
        _speed += (_bench.Outputs.Throttle * 5000 - _speed) * (_bench.Outputs.Throttle == 0 ? 0.08 : 0.05);
        _speed = Math.Abs(_speed) < 1 ? 0 : _speed;
    }

    private void ReadSoundly()
    {
        double stop = Rig.Article.Controller.StopPulse;
        _bench.Read(ChannelNames.ReceiverPulse, _bench.Outputs.Gate ? 1000 + _random.Next(1000) : stop);
        _shut = !_bench.Outputs.Unlocked;
        if (Rig.Has(ChannelNames.RotorSpeed))
            _bench.Read(ChannelNames.RotorSpeed, _speed);
        foreach (string channel in ((string[])[ChannelNames.EnclosureLid, ChannelNames.EnclosureLock]).Where(Rig.Has))
            _bench.Read(channel, _shut ? 1 : 0);
    }

    private void Read()
    {
        ReadSoundly();
        if (Rig.Has(ChannelNames.RotorSpeed) && Fails())
            Spoil(ChannelNames.RotorSpeed);
        if (Fails())
            SpoilReceiver();
        foreach (string channel in ((string[])[ChannelNames.EnclosureLid, ChannelNames.EnclosureLock]).Where(Rig.Has))
        {
            if (!Fails())
                continue;
            Spoil(channel);
            ImageEntry entry = _bench.Image[_bench.Place(channel)];
            _shut &= entry.IsUsable && entry.Minimum == 1;
        }
    }

    private void SpoilReceiver()
    {
        if (_random.Next(3) == 0)
            Spoil(ChannelNames.ReceiverPulse);
        else
            _bench.Read(ChannelNames.ReceiverPulse, _random.Next(2) * (1000 + _random.Next(1000)));
    }

    private void Spoil(string channel)
    {
        ref ImageEntry entry = ref _bench.Image[_bench.Place(channel)];
        switch (_random.Next(4))
        {
            case 0:
                entry.Quality = Quality.Bad;
                break;
            case 1:
                (entry.Last, entry.Minimum, entry.Maximum) = (double.NaN, double.NaN, double.NaN);
                break;
            case 2:
                entry.Maximum = 900;
                break;
            default:
                entry.Minimum = -900;
                break;
        }
    }

    private (double, double)? Number(string channel)
    {
        if (!Rig.Has(channel))
            return null;
        ImageEntry entry = _bench.Image[_bench.Place(channel)];
        return entry.IsUsable && !double.IsNaN(entry.Maximum) ? (entry.Minimum, entry.Maximum) : null;
    }

    private void Flicker(ScriptedInterlock interlock)
    {
        bool objects = interlock.Throws || interlock.Action != DemandAction.Proceed;
        if (objects && _random.Next(30) == 0)
            (interlock.Action, interlock.Throws) = (DemandAction.Proceed, false);
        else if (Fails())
            (interlock.Action, interlock.Throws) = ((DemandAction)_random.Next(4), _random.Next(40) == 0);
    }

    private TimeSpan Gap() => _bench.Configuration.ScanPeriod * (Fails() ? _random.Next(5) switch
    {
        0 => -_random.NextDouble(),
        1 => 20,
        2 => 0,
        _ => 1.6,
    } : 1);

    private bool Fails() => _random.NextDouble() < _faults;

    private Command[] Commands()
    {
        if (_random.NextDouble() < 0.002)
            return [.. Enumerable.Range(0, _random.Next(1, Capacity.Commands + 1)).Select(_ => AnyCommand())];
        if (_random.NextDouble() < _faults)
            return [_bench.Act(CommandKind.Stop, (CommandSource)_random.Next(3))];
        if (_bench.Rig == RigState.Idle && _random.Next(100) == 0)
            return [_bench.Act(CommandKind.Unlock)];
        return _random.Next(10) == 0 ? [.. Due().Take(1).Select(kind => _bench.Act(kind))] : [];
    }

    private Command AnyCommand() => _bench.Act((CommandKind)(_random.Next(12) == 0 ? 0 : _random.Next(1, 9)), (CommandSource)_random.Next(3));

    // What a patient operator does next.
    private IEnumerable<CommandKind> Due()
    {
        if (_bench.Record.AwaitsLook)
            yield return CommandKind.Look;
        if (_bench.Rig == RigState.SafeStop && _bench.Record.AtStandstill)
            yield return CommandKind.Reset;
        if (_bench.Rig == RigState.Idle && _bench.Record.Finished)
            yield return CommandKind.Stop;
        if (_bench.Rig == RigState.Idle && (_bench.State.Flags & StateFlags.UnlockWanted) != 0)
            yield return CommandKind.Lock;
        if (_bench.Rig == RigState.Idle && _bench.Record.AtStandstill && Rig.Does.Steps[_bench.Record.Step].Kind == StepKind.Arm)
            yield return CommandKind.Arm;
        if (_bench.Record.Phase == ArmingPhase.AwaitingStart)
            yield return CommandKind.Start;
    }
}
