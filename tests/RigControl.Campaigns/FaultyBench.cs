using RigControl.Contracts;
using RigControl.Devices.SimulatedRig;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Campaigns;

/// <summary>
/// The simulated rig with a scenario's faults on it. It lives in true time whatever the host's clock says, outlives a restart
/// of the host and goes on when nobody reads it, as a real bench does.
/// </summary>
internal sealed class FaultyBench : IDevice
{
    private readonly SimulatedRigDevice _bench;
    private readonly Scenario _scenario;
    private readonly TrueTime _time;
    private readonly SensorFault[] _sensors;
    private readonly bool _mayLie;
    private readonly bool _mayFallOut;
    private double _passed;
    private bool _unloaded;
    private OutputImage _asked;
    private PlannedFault? _out;
    private (int Serial, int Start) _greeted;

    public FaultyBench(Scenario scenario, TrueTime time, DeviceContext context)
    {
        (_scenario, _time) = (scenario, time);
        SimulatedRigOptions plant = new() { Ambient = scenario.Ambient, StateOfCharge = scenario.Charge, Windage = scenario.Windage, Stick = CampaignRig.Level * 100, OwnStop = false };
        _bench = (SimulatedRigDevice)((IDevicePlugin)new SimulatedRigPlugin()).Open(plant, context);
        _sensors = [.. scenario.AllFaults.Where(f => SensorFault.Is(f.Kind)).Select(f => new SensorFault(f, _bench.Channels[f.Channel]))];
        _mayLie = scenario.AllFaults.Any(f => f.Kind == FaultKind.BoardLies);
        _mayFallOut = scenario.AllFaults.Any(f => f.Kind is FaultKind.BoardSwapped or FaultKind.RigUnpowered);
    }

    public ref readonly BenchTruth Truth => ref _bench.Truth;

    /// <summary>Which board is there now, and which of its starts this is.</summary>
    public (int Serial, int Start) Board { get; private set; } = (1, 1);

    public IReadOnlyList<ChannelDeclaration> Channels => _bench.Channels;

    public DeviceTraits Traits => _bench.Traits;

    public TimeSpan ReadPeriod => _bench.ReadPeriod;

    public IReadOnlyDictionary<string, string> Identity => new Dictionary<string, string> { ["serial"] = $"{Board.Serial}", ["nonce"] = $"{Board.Start}" };

    /// <summary>A host opens it: what answers now is what it takes for the board of its session.</summary>
    public void Greet() => _greeted = Board;

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        if (_scenario.IsOn(FaultKind.DeviceThrows, _time.Now))
            throw new InvalidOperationException("the bench's driver gave up");
        ISampleWriter to = new Restamped(writer, now - TimeSpan.FromSeconds(_time.Now));
        if (_mayLie && _scenario.IsOn(FaultKind.BoardLies, _time.Now))
            to = new Confirming(to, _asked);
        foreach (SensorFault sensor in _sensors)
            to = sensor.Between(_time.Now, to);
        Pass(to);
        if (_out is null && _greeted != Board)
            throw new InvalidOperationException("another board answers, or it has started again");
    }

    /// <summary>Lets time pass on the bench in a period in which no host has read it.</summary>
    public void KeepTime()
    {
        if (_time.Now > _passed)
            Pass(Nowhere.Writer);
    }

    // A board that has restarted obeys nobody before it was told to stop, with the power off.
    public void Apply(TimeSpan now, in OutputImage outputs)
    {
        _asked = outputs;
        _unloaded &= outputs.Drives || outputs.Power;
        bool obeys = !_unloaded && _out is null && !_scenario.IsOn(FaultKind.BoardRestart, _time.Now);
        _bench.Apply(TimeSpan.FromSeconds(_time.Now), obeys ? outputs : default);
    }

    public void Dispose()
    {
        // The bench stays where it is when the host ends.
    }

    private void Pass(ISampleWriter to)
    {
        _passed = _time.Now;
        TimeSpan now = TimeSpan.FromSeconds(_passed);
        FollowBoard();
        bool silent = _out is not null || _scenario.IsOn(FaultKind.BoardRestart, _passed);
        if (silent)
            _bench.Apply(now, default);
        _unloaded |= silent;
        _bench.Faults = BenchBreaker.FaultsAt(_scenario, _passed);
        _bench.Read(now, silent ? Nowhere.Writer : to);
    }

    // While it is swapped, or has no supply, no board answers; the one that answers after that is another, or began anew.
    private void FollowBoard()
    {
        if (!_mayFallOut)
            return;
        if (_out is null)
        {
            _out = _scenario.AllFaults.FirstOrDefault(f => f.Kind is FaultKind.BoardSwapped or FaultKind.RigUnpowered && f.IsOn(_passed));
            return;
        }

        if (_out.IsOn(_passed))
            return;
        Board = (Board.Serial + (_out.Kind == FaultKind.BoardSwapped ? 1 : 0), Board.Start + 1);
        _out = null;
    }

    /// <summary>Stamps readings with the host's clock.</summary>
    private sealed class Restamped(ISampleWriter to, TimeSpan ahead) : ISampleWriter
    {
        public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good) => to.Write(channel, at + ahead, value, quality);
    }

    /// <summary>Confirms whatever was asked. What the receiver drives through the gate is not asked of it.</summary>
    private sealed class Confirming(ISampleWriter to, OutputImage asked) : ISampleWriter
    {
        public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good)
        {
            double said = channel == BenchChannels.Power ? asked.Power ? 1 : 0
                : asked.Gate ? value
                : channel == BenchChannels.Pulse ? asked.Pulse
                : channel == BenchChannels.Throttle ? asked.Throttle * 100
                : value;
            to.Write(channel, at, said, quality);
        }
    }

    private sealed class Nowhere : ISampleWriter
    {
        public static readonly Nowhere Writer = new();

        public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good)
        {
            // Nobody listens.
        }
    }
}

/// <summary>Hands out one bench, so that a restarted host finds the same one again.</summary>
internal sealed class FaultyBenchPlugin(Func<DeviceContext, FaultyBench> open) : IDevicePlugin
{
    public string Kind => "faulty-bench";

    public string Meaning => "The simulated rig with faults on it.";

    public Type OptionsType => typeof(SimulatedRigOptions);

    public IDevice Open(object options, DeviceContext context) => open(context);
}
