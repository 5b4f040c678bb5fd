using RigControl.Contracts;
using RigControl.Devices.SimulatedRig;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Campaigns;

/// <summary>The simulated rig with a scenario's faults on it. It outlives a restart of the host, as a real bench does.</summary>
internal sealed class FaultyBench : IDevice
{
    private readonly SimulatedRigDevice _bench;
    private readonly Scenario _scenario;
    private readonly SensorFault[] _sensors;

    public FaultyBench(Scenario scenario, DeviceContext context)
    {
        _scenario = scenario;
        _bench = (SimulatedRigDevice)((IDevicePlugin)new SimulatedRigPlugin()).Open(new SimulatedRigOptions(), context);
        _sensors = [.. scenario.Faults.Where(f => f.Kind is >= FaultKind.SensorStuck and <= FaultKind.SensorLying).Select(f => new SensorFault(f, _bench.Channels[f.Channel]))];
    }

    public ref readonly BenchTruth Truth => ref _bench.Truth;

    public IReadOnlyList<ChannelDeclaration> Channels => _bench.Channels;

    public DeviceTraits Traits => _bench.Traits;

    public TimeSpan ReadPeriod => _bench.ReadPeriod;

    public IReadOnlyDictionary<string, string> Identity => _bench.Identity;

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        Break(now.TotalSeconds);
        ISampleWriter to = writer;
        foreach (SensorFault sensor in _sensors)
            to = sensor.Between(now.TotalSeconds, to);
        _bench.Read(now, to);
    }

    public void Apply(TimeSpan now, in OutputImage outputs) => _bench.Apply(now, outputs);

    public void Dispose()
    {
        // The bench stays where it is when the host ends.
    }

    private void Break(double now)
    {
        BenchFaults faults = default;
        foreach (PlannedFault fault in _scenario.Faults)
        {
            if (!fault.IsOn(now))
                continue;
            if (fault.Kind == FaultKind.DeviceThrows)
                throw new InvalidOperationException("the bench's driver gave up");
            Apply(fault, ref faults);
        }

        _bench.Faults = faults;
    }

    private static void Apply(PlannedFault fault, ref BenchFaults faults)
    {
        switch (fault.Kind)
        {
            case FaultKind.LidForced: faults.LidForced = true; break;
            case FaultKind.StopPressed: faults.StopPressed = true; break;
            case FaultKind.RadioLost: faults.RadioLost = true; break;
            case FaultKind.ContactorWelded: faults.ContactorWelded = true; break;
            case FaultKind.ContactorDead: faults.ContactorDead = true; break;
            case FaultKind.BoltStuck: faults.BoltStuck = true; break;
            case FaultKind.SlowActuators: faults.ActuatorDelay = fault.Size * 0.3; break;
            case FaultKind.StuckPulse: faults.StuckPulse = 1000 + fault.Size * 1000; break;
            case FaultKind.ControllerRunaway: faults.ControllerRunaway = true; break;
            case FaultKind.ControllerShorted: faults.ControllerShorted = true; break;
            case FaultKind.RotorJammed: faults.RotorJammed = true; break;
            case FaultKind.FailingBearing: faults.AddedFriction = fault.Size * 0.1; break;
            case FaultKind.TachometerSilent: faults.Tachometer = TachometerFault.Silent; break;
            case FaultKind.TachometerDoubled: faults.Tachometer = TachometerFault.Doubled; break;
            case FaultKind.TachometerHalved: faults.Tachometer = TachometerFault.Halved; break;
            case FaultKind.MotorHeated: faults.AddedHeat = fault.Size * 800; break;
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
