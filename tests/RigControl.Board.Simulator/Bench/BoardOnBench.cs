using RigControl.Board.Simulator.Board;
using RigControl.Physics;
using Plant = RigControl.Physics.Bench;

namespace RigControl.Board.Simulator.Bench;

/// <summary>
/// The board's firmware and the bench in lock-step, a millisecond at a time: pins drive controller, contactor and lock; speed,
/// currents and contacts come back as edges, millivolts and levels.
/// </summary>
public sealed class BoardOnBench : IBoardRig, IDisposable
{
    /// <summary>Cycles in one exchange between board and bench.</summary>
    public const ulong Slice = BoardClock.Millisecond;

    /// <summary>A pulse this old no longer counts: longer than a frame at 50 Hz.</summary>
    private const ulong PulseMemory = 25 * BoardClock.Millisecond;

    /// <summary>Marks a second below which none is shown.</summary>
    private const double RestRate = 0.5;

    /// <summary>Time that a movement by hand takes, s.</summary>
    private const double Instant = 1e-6;

    /// <summary>Pulse of a stick at stop, µs.</summary>
    private const double StickAtStop = 1000;

    /// <summary>How fast a careful hand pushes it, µs each second.</summary>
    private const double StickPerSecond = 100;

    private SplitMix chance;
    private BenchDrive drive;
    private ulong keyClosesAt = ulong.MaxValue;
    private ulong stickGoesFrom = ulong.MaxValue;
    private double stickGoesTo = StickAtStop;

    /// <summary>Puts <paramref name="firmware"/> on a bench; the same seed gives the same run.</summary>
    /// <param name="firmware">Path of the ELF file.</param>
    /// <param name="parameters">The bench.</param>
    /// <param name="seed">Seed of all noise.</param>
    /// <param name="remember">Whether <see cref="Pins"/> keeps every pulse and edge; not for runs without end.</param>
    /// <exception cref="BoardException">The firmware cannot be loaded.</exception>
    public BoardOnBench(string firmware, BenchParameters parameters, ulong seed, bool remember = false)
    {
        Pins = new PinLog(remember);
        Board = new SimulatedBoard(firmware);
        Bench = new Plant(parameters, seed);
        chance = new SplitMix(~seed);
        ShowContacts();
        ShowQuantities();
    }

    /// <inheritdoc/>
    public SimulatedBoard Board { get; }

    /// <summary>What the pins did.</summary>
    public PinLog Pins { get; }

    /// <summary>The plant, with its truth and its faults.</summary>
    public Plant Bench { get; }

    /// <summary>Whether the arm key is closed.</summary>
    public bool KeyClosed { get; set; }

    /// <summary>Opens the arm key, and closes it a tenth of a second later, as a hand does.</summary>
    public void TurnKey() => (KeyClosed, keyClosesAt) = (false, Board.Cycle + 100 * BoardClock.Millisecond);

    /// <summary>Width of the transmitter's pulse, µs.</summary>
    public double ReceiverMicroseconds { get; set; } = StickAtStop;

    /// <summary>Pushes the stick to a pulse of so many µs as a hand does that was asked to: it comes to it a moment later, and goes slowly.</summary>
    public void PushStick(double width) => (stickGoesTo, stickGoesFrom) = (width, Board.Cycle + 500 * BoardClock.Millisecond);

    /// <summary>Lets the stick spring back to stop.</summary>
    public void ReleaseStick() => (ReceiverMicroseconds, stickGoesFrom) = (StickAtStop, ulong.MaxValue);

    /// <summary>Noise on every analogue input, mV.</summary>
    public SensorNoise Noise { get; set; } = new(Deviation: 2, Resolution: 0, Offset: 0, GainError: 0);

    /// <inheritdoc/>
    public void RunUntil(ulong cycle)
    {
        while (Board.Cycle < cycle)
            Exchange(Math.Min(Slice, cycle - Board.Cycle));
    }

    /// <summary>Does something to the bench by hand and lets the board's contacts show it at once.</summary>
    public void Change(Action<BoardOnBench> act)
    {
        act(this);
        Bench.Step(Instant, drive);
        ShowContacts();
    }

    /// <inheritdoc/>
    public void Dispose() => Board.Dispose();

    private void Exchange(ulong slice)
    {
        ulong before = Board.Cycle;
        Board.RunUntil(before + slice);
        Pins.Fetch(Board);
        bool heard = Pins.LastPulse.Fall > 0 && Board.Cycle - Pins.LastPulse.Fall < PulseMemory;
        double pulse = heard ? Pins.LastPulse.Microseconds : 0;
        drive = new BenchDrive(pulse, Pins.Pump.Holding, Board.Output(BoardPin.LockRelease));
        Bench.Step(BoardClock.Seconds(Board.Cycle - before), drive);
        if (Board.Cycle >= keyClosesAt)
            (KeyClosed, keyClosesAt) = (true, ulong.MaxValue);
        if (Board.Cycle >= stickGoesFrom)
            ReceiverMicroseconds = Math.Min(stickGoesTo, StickAtStop + StickPerSecond * BoardClock.Seconds(Board.Cycle - stickGoesFrom));
        ShowContacts();
        ShowQuantities();
    }

    private void ShowContacts()
    {
        BenchReadings readings = Bench.Readings;
        Board.SetInput(BoardPin.LidA, !readings.LidContactA);
        Board.SetInput(BoardPin.LidB, !readings.LidContactB);
        Board.SetInput(BoardPin.LockBolt, !readings.BoltHome);
        Board.SetInput(BoardPin.StopCircuit, !readings.StopCircuitClosed);
        Board.SetInput(BoardPin.ArmKey, !KeyClosed);
        Board.SetInput(BoardPin.ContactorFeedback, readings.ContactorClosed);
        bool radio = readings.RadioLinked && ReceiverMicroseconds > 0;
        Board.SetReceiver(20 * BoardClock.Millisecond, radio ? (ulong)(ReceiverMicroseconds * BoardClock.Microsecond) : 0);
    }

    private void ShowQuantities()
    {
        ref readonly BenchTruth truth = ref Bench.Truth;
        Show(AnalogueInput.Voltage, SensorWiring.Voltage(truth.PackVoltage));
        Show(AnalogueInput.Current, SensorWiring.Current(truth.PackCurrent));
        Show(AnalogueInput.Thermistor1, SensorWiring.Thermistor(truth.CaseTemperature));
        Show(AnalogueInput.Thermistor2, SensorWiring.Thermistor(truth.ControllerTemperature));
        Board.SetTachometerPeriod(TachometerPeriod(Math.Abs(truth.Speed)));
    }

    private void Show(AnalogueInput input, double millivolts) => Board.SetMillivolts(input, Noise.Read(millivolts, ref chance));

    private double TachometerPeriod(double speed)
    {
        double share = Bench.Faults.Tachometer switch
        {
            TachometerFault.Silent => 0,
            TachometerFault.Doubled => 2,
            TachometerFault.Halved => 0.5,
            _ => 1,
        };
        double rate = speed / (2 * Math.PI) * share * Bench.Parameters.Tachometer.PulsesPerRevolution;
        return rate < RestRate ? 0 : BoardClock.Frequency / rate;
    }
}
