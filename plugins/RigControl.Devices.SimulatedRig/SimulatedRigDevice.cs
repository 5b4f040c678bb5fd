using RigControl.Contracts;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Physics;
using static RigControl.Devices.SimulatedRig.SimulatedChannels;

namespace RigControl.Devices.SimulatedRig;

/// <summary>
/// The bench as a device. Time passes on it whenever it is read, under the outputs it was last told; outputs that are not
/// refreshed for <see cref="HostSilence"/> fall to no pulse and no power, as on the board.
/// </summary>
public sealed class SimulatedRigDevice : IDevice, IHandable
{
    /// <summary>Time without outputs after which the bench stops by itself.</summary>
    public static readonly TimeSpan HostSilence = TimeSpan.FromMilliseconds(100);

    private const double RadPerSecondToRpm = 60 / (2 * Math.PI);
    private static readonly SensorNoise VoltageNoise = new(0.004, 0, 0, 0);
    private static readonly SensorNoise CurrentNoise = new(0.03, 0, 0, 0);
    private static readonly SensorNoise TemperatureNoise = new(0.05, 0, 0, 0);

    private readonly Bench _bench;
    private readonly Timetable _timetable;
    private readonly Transmitter _transmitter;
    private readonly Hands _hands = new();
    private readonly OwnStop? _ownStop;
    private bool _stopsItself;
    private bool _gateSticks;
    private readonly double _stopPulse;
    private readonly double[] _contacts = new double[SecondPulse + 1];
    private readonly int _marks;
    private SplitMix _noise;
    private OutputImage _outputs;
    private TimeSpan _appliedAt;
    private TimeSpan _now;
    private TimeSpan _nextContacts;
    private TimeSpan _nextTemperatures;

    internal SimulatedRigDevice(SimulatedRigOptions options, DeviceContext context)
    {
        BenchParameters declared = BenchOfArticle.Build(context.Article, options.Windage / 100, options.StateOfCharge / 100, options.Ambient);
        _bench = new Bench(declared with { Controller = RealController.Of(declared.Controller, options) }, context.Seed);
        _bench.Faults.AddedHeat = options.AddedHeat;
        _bench.Faults.RotorJammed = options.RotorHeld;
        _timetable = new Timetable(options);
        _ownStop = options.OwnStop ? new OwnStop() : null;
        _marks = options.Marks;
        _stopPulse = context.Article.Controller.StopPulse;
        double stick = Math.Max(options.Stick / 100, context.Article.Controller.Mode == Model.Rig.ControllerMode.TwoWay ? -1 : 0);
        // A hand that opens it only a little goes no further than a verification may.
        _transmitter = new Transmitter(context.Article.Controller, stick, context.Article.Verification?.Throttle ?? stick);
        _noise = new SplitMix(context.Seed ^ 0x5EED);
        Channels = Declare(context.ScanPeriod);
        ReadPeriod = context.ScanPeriod;
        Identity = new Dictionary<string, string> { ["seed"] = context.Seed.ToString(System.Globalization.CultureInfo.InvariantCulture) };
    }

    public IReadOnlyList<ChannelDeclaration> Channels { get; }

    public DeviceTraits Traits => DeviceTraits.NeverBlocks | DeviceTraits.Simulated | DeviceTraits.DrivesOutput | DeviceTraits.CeasesPulses;

    public TimeSpan ReadPeriod { get; }

    public IReadOnlyDictionary<string, string> Identity { get; }

    /// <summary>What is really so on the bench: for checkers, never for decisions.</summary>
    public ref readonly BenchTruth Truth => ref _bench.Truth;

    /// <summary>What is broken, or done by a person.</summary>
    public ref BenchFaults Faults => ref _bench.Faults;

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        _hands.Follow(ref _bench.Faults, _transmitter);
        _timetable.Follow(now, ref _bench.Faults);
        _gateSticks = _timetable.GateSticks(now);
        _stopsItself = _ownStop?.Follow(_bench.Readings, _outputs) ?? false;
        _transmitter.Follow(now, GateOpen && !IsSilent(now), !_bench.Faults.RadioLost, _timetable.ReceiverHolds(now));
        PassTime(now);
        WriteMeasured(now, writer);
        WriteContacts(now, writer);
        if (now >= _nextTemperatures)
            WriteTemperatures(now, writer);
    }

    public void Apply(TimeSpan now, in OutputImage outputs) => (_outputs, _appliedAt) = (outputs, now);

    public void Do(HandMove move) => _hands.Do(move);

    public void Dispose()
    {
        // Nothing is held.
    }

    private bool GateOpen => _outputs.Gate || _gateSticks;

    // As on the board: through an open gate goes the receiver's pulse, and stop where there is none.
    private double PulseOut => _stopsItself ? _stopPulse : !GateOpen ? _outputs.Pulse : _transmitter.Pulse > 0 ? _transmitter.Pulse : _stopPulse;

    private double LevelOut(TimeSpan now) => _stopsItself || IsSilent(now) ? 0 : GateOpen ? _transmitter.Level : _outputs.Throttle;

    private bool IsSilent(TimeSpan now) => now - _appliedAt > HostSilence;

    private void PassTime(TimeSpan now)
    {
        BenchDrive drive = IsSilent(now) ? default : new BenchDrive(PulseOut, _outputs.Power && !_stopsItself, _outputs.Unlocked);
        // A real clock may have slept for long; the bench takes no step longer than its own bound.
        while (now > _now)
        {
            TimeSpan step = now - _now < TimeSpan.FromSeconds(Bench.MaximumStep) ? now - _now : TimeSpan.FromSeconds(Bench.MaximumStep);
            _bench.Step(step.TotalSeconds, drive);
            _now += step;
        }
    }

    private void WriteMeasured(TimeSpan now, ISampleWriter writer)
    {
        ref readonly BenchTruth truth = ref _bench.Truth;
        writer.Write(Speed, now, _bench.Tachometer.Speed(_bench.Parameters.Tachometer) * RadPerSecondToRpm * _marks);
        writer.Write(Voltage, now, VoltageNoise.Read(truth.PackVoltage, ref _noise));
        writer.Write(Current, now, CurrentNoise.Read(truth.PackCurrent, ref _noise));
    }

    // Contacts and outputs are told at once when they change, and often enough in between to be fresh.
    private void WriteContacts(TimeSpan now, ISampleWriter writer)
    {
        BenchReadings readings = _bench.Readings;
        bool due = now >= _nextContacts;
        if (due)
            _nextContacts = now + ContactPeriod;
        Tell(Throttle, LevelOut(now) * 100);
        Tell(Pulse, IsSilent(now) ? 0 : PulseOut);
        Tell(Power, readings.ContactorClosed ? 1 : 0);
        Tell(Lid, readings.LidContactA ? 1 : 0);
        Tell(LidOpen, readings.LidContactB ? 1 : 0);
        Tell(Bolt, readings.BoltHome ? 1 : 0);
        Tell(Stop, readings.StopCircuitClosed ? 1 : 0);
        Tell(Radio, readings.RadioLinked ? 1 : 0);
        Tell(ReceiverPulse, _transmitter.Pulse);
        Tell(SecondPulse, _outputs.SecondPulse);

        void Tell(int channel, double value)
        {
            if (!due && _contacts[channel] == value)
                return;
            _contacts[channel] = value;
            writer.Write(channel, now, value);
        }
    }

    private void WriteTemperatures(TimeSpan now, ISampleWriter writer)
    {
        _nextTemperatures = now + TemperaturePeriod;
        ref readonly BenchTruth truth = ref _bench.Truth;
        writer.Write(MotorHeat, now, TemperatureNoise.Read(truth.CaseTemperature, ref _noise));
        writer.Write(ControllerHeat, now, TemperatureNoise.Read(truth.ControllerTemperature, ref _noise));
        writer.Write(BatteryHeat, now, TemperatureNoise.Read(truth.PackTemperature, ref _noise));
        writer.Write(AmbientHeat, now, TemperatureNoise.Read(truth.AmbientTemperature, ref _noise));
    }
}
