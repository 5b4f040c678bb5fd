using RigControl.Kernel;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Physics;
using RigControl.Rehearsal.Bench;

namespace RigControl.Rehearsal.Running;

/// <summary>The modelled bench as the kernel sees it: outputs in, samples out, a scan's time at a time.</summary>
internal sealed class VirtualBench(RehearsalPlan plan, BenchParameters parameters, ulong seed)
{
    private const double RadPerSecondToRpm = 60 / (2 * Math.PI);

    // Contacts and temperatures change slowly; every fourth scan keeps them fresh.
    private const int SlowEvery = 4;

    private readonly Physics.Bench _bench = new(parameters, seed);
    private readonly double _period = plan.Configuration.ScanPeriod.TotalSeconds;
    private long _scan;

    /// <summary>What the bench is told.</summary>
    public OutputImage Outputs { get; set; }

    public ref readonly BenchTruth Truth => ref _bench.Truth;

    /// <summary>rpm, as the tachometer gives it.</summary>
    public double Speed => _bench.Tachometer.Speed(_bench.Parameters.Tachometer) * RadPerSecondToRpm;

    /// <summary>Lets a scan's time pass and folds what the sensors say at its end.</summary>
    public void Pass(TimeSpan now, ReadOnlySpan<Channel> channels, ref FoldState fold)
    {
        _bench.Step(_period, new BenchDrive(Outputs.Pulse, Outputs.Power, Outputs.Unlocked));
        ref readonly BenchTruth truth = ref _bench.Truth;
        Writer write = new(channels, now, ref fold);
        write.Of(BenchChannels.Speed, Speed);
        write.Of(BenchChannels.Voltage, truth.LowestPackVoltage);
        write.Of(BenchChannels.Current, truth.HighestPackCurrent);
        write.Of(BenchChannels.Throttle, Outputs.Throttle * 100);
        write.Of(BenchChannels.Pulse, Outputs.Pulse);
        write.Of(BenchChannels.Power, truth.ContactorClosed ? 1 : 0);
        if (_scan++ % SlowEvery == 0)
            WriteSlow(write, truth);
    }

    private void WriteSlow(Writer write, in BenchTruth truth)
    {
        BenchReadings readings = _bench.Readings;
        write.Of(BenchChannels.SecondPulse, Outputs.SecondPulse);
        write.Of(BenchChannels.ReceiverPulse, plan.Configuration.StopPulse);
        write.Of(BenchChannels.Lid, readings.LidContactA ? 1 : 0);
        write.Of(BenchChannels.LidOpen, readings.LidContactB ? 1 : 0);
        write.Of(BenchChannels.Lock, readings.BoltHome ? 1 : 0);
        write.Of(BenchChannels.Stop, readings.StopCircuitClosed ? 1 : 0);
        write.Of(BenchChannels.Radio, readings.RadioLinked ? 1 : 0);
        write.Of(BenchChannels.MotorHeat, truth.CaseTemperature);
        write.Of(BenchChannels.ControllerHeat, truth.ControllerTemperature);
        write.Of(BenchChannels.BatteryHeat, truth.PackTemperature);
        write.Of(BenchChannels.AmbientHeat, truth.AmbientTemperature);
        write.Of(BenchChannels.Confirmed, 1);
        write.Of(BenchChannels.Present, 1);
        write.Of(BenchChannels.Backlog, 0);
        write.Of(BenchChannels.Lateness, 0);
    }

    private readonly ref struct Writer(ReadOnlySpan<Channel> channels, TimeSpan now, ref FoldState fold)
    {
        private readonly ReadOnlySpan<Channel> _channels = channels;
        private readonly ref FoldState _fold = ref fold;

        public void Of(int channel, double value) => Fold.Add(_channels, ref _fold, new Sample((ushort)channel, Quality.Good, now, value));
    }
}
