using RigControl.Board.Simulator.Board;
using RigControl.Physics;
using Plant = RigControl.Physics.Bench;

namespace RigControl.Board.Simulator.Bench;

/// <summary>
/// The board's firmware and the bench in lock-step, a millisecond at a time: pins drive controller, contactor and lock; speed,
/// currents and contacts come back as edges, millivolts and levels.
/// </summary>
public sealed class BoardOnBench : IDisposable
{
    /// <summary>Cycles in one exchange between board and bench.</summary>
    public const ulong Slice = BoardClock.Millisecond;

    /// <summary>A pulse this old no longer counts: longer than a frame at 50 Hz.</summary>
    private const ulong PulseMemory = 25 * BoardClock.Millisecond;

    /// <summary>Marks a second below which none is shown.</summary>
    private const double RestRate = 0.5;

    /// <summary>Time that a movement by hand takes, s.</summary>
    private const double Instant = 1e-6;

    private readonly Edge[] edges = new Edge[1024];
    private ChargePump pump;
    private SplitMix chance;
    private ulong rise;
    private Pulse lastPulse;
    private BenchDrive drive;

    /// <summary>Puts <paramref name="firmware"/> on a bench; the same seed gives the same run.</summary>
    /// <exception cref="BoardException">The firmware cannot be loaded.</exception>
    public BoardOnBench(string firmware, BenchParameters parameters, ulong seed)
    {
        Board = new SimulatedBoard(firmware);
        Bench = new Plant(parameters, seed);
        chance = new SplitMix(~seed);
        ShowContacts();
        ShowQuantities();
    }

    /// <summary>The board. Move time only through <see cref="RunUntil"/>.</summary>
    public SimulatedBoard Board { get; }

    /// <summary>The plant, with its truth and its faults.</summary>
    public Plant Bench { get; }

    /// <summary>Whether the arm key is closed.</summary>
    public bool KeyClosed { get; set; }

    /// <summary>Width of the transmitter's pulse, µs.</summary>
    public double ReceiverMicroseconds { get; set; } = 1000;

    /// <summary>Noise on every analogue input, mV.</summary>
    public SensorNoise Noise { get; set; } = new(Deviation: 2, Resolution: 0, Offset: 0, GainError: 0);

    /// <summary>Whether the pump holds the contactor's coil; stop and lid contacts lie in the coil's circuit on the bench.</summary>
    public bool CoilHeld => pump.Holding;

    /// <summary>Runs board and bench to <paramref name="cycle"/>.</summary>
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
        FollowPins();
        bool heard = lastPulse.Fall > 0 && Board.Cycle - lastPulse.Fall < PulseMemory;
        drive = new BenchDrive(heard ? lastPulse.Microseconds : 0, pump.Holding, Board.Output(BoardPin.LockRelease));
        Bench.Step(BoardClock.Seconds(Board.Cycle - before), drive);
        ShowContacts();
        ShowQuantities();
    }

    private void FollowPins()
    {
        int count;
        while ((count = Board.ReadEdges(edges)) > 0)
            foreach (ref readonly Edge edge in edges.AsSpan(0, count))
                Follow(edge);
        pump.Settle(Board.Cycle);
    }

    private void Follow(in Edge edge)
    {
        if (edge is { Pin: BoardPin.PowerWatch, Rising: true })
            pump.Rise(edge.Cycle);
        if (edge.Pin != BoardPin.ServoPulse)
            return;
        if (!edge.Rising)
            lastPulse = new Pulse(rise, edge.Cycle);
        rise = edge.Cycle;
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
