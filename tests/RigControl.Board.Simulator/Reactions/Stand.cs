using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Simulator.Reactions;

/// <summary>
/// The board on a test stand: contacts by hand, a tachometer at any speed, and a contactor behind the charge pump whose coil
/// circuit runs through stop and lid contacts. For measuring times; the bench with its physics is elsewhere.
/// </summary>
public sealed class Stand : IBoardRig, IDisposable
{
    private const ulong Slice = BoardClock.Millisecond / 2;
    private const ulong ReceiverFrame = 20 * BoardClock.Millisecond;
    private const ulong ContactorDelay = 15 * BoardClock.Millisecond;
    private const int MidScale = 2500, HealthyVoltage = 2000;
    private bool coil;
    private ulong coilChanged;

    /// <summary>The lid closed and locked, the stop circuit clear, the key open, the rotor at rest.</summary>
    public Stand(string firmware)
    {
        Board = new SimulatedBoard(firmware);
        Heal();
        Board.SetInput(BoardPin.LockBolt, false);
        Board.SetInput(BoardPin.ContactorFeedback, false);
        Board.SetMillivolts(AnalogueInput.Voltage, HealthyVoltage);
        Board.SetMillivolts(AnalogueInput.Thermistor1, MidScale);
        Board.SetMillivolts(AnalogueInput.Thermistor2, MidScale);
    }

    /// <inheritdoc/>
    public SimulatedBoard Board { get; }

    /// <summary>What the pins did.</summary>
    public PinLog Pins { get; } = new();

    /// <summary>Whether the contactor has no more hold, whatever its coil says.</summary>
    public bool ContactorFails { get; set; }

    private bool LidClosed { get; set; }

    private bool StopClear { get; set; }

    /// <summary>Puts everything in order: lid closed, stop clear, no current, a converter that converts, a contactor that obeys.</summary>
    public void Heal()
    {
        Lid(closed: true);
        Stop(clear: true);
        Board.SetMillivolts(AnalogueInput.Current, MidScale);
        Board.StallConverter(false);
        ContactorFails = false;
    }

    /// <summary>Opens or closes the lid: both contacts change together.</summary>
    public void Lid(bool closed)
    {
        LidClosed = closed;
        Board.SetInput(BoardPin.LidA, !closed);
        Board.SetInput(BoardPin.LidB, closed);
    }

    /// <summary>Opens one contact of the lid and leaves the other, as a lead that came off does.</summary>
    public void BreakLidContact(BoardPin contact) => Board.SetInput(contact, contact == BoardPin.LidA);

    /// <summary>Opens or closes the stop circuit.</summary>
    public void Stop(bool clear)
    {
        StopClear = clear;
        Board.SetInput(BoardPin.StopCircuit, !clear);
    }

    /// <summary>Lets the receiver give a pulse of <paramref name="microseconds"/> every 20 ms, none for 0.</summary>
    public void Receive(double microseconds) => Board.SetReceiver(ReceiverFrame, (ulong)(microseconds * BoardClock.Microsecond));

    /// <summary>Turns the rotor: one mark each <paramref name="microseconds"/>, none for 0.</summary>
    public void Turn(double microseconds) => Board.SetTachometerPeriod(microseconds * BoardClock.Microsecond);

    /// <inheritdoc/>
    public void RunUntil(ulong cycle)
    {
        while (Board.Cycle < cycle)
        {
            Board.RunUntil(Math.Min(cycle, Board.Cycle + Slice));
            Pins.Fetch(Board);
            MoveContactor();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => Board.Dispose();

    private void MoveContactor()
    {
        bool held = Pins.Pump.Holding && LidClosed && StopClear;
        if (held != coil)
            (coil, coilChanged) = (held, Board.Cycle);
        if (ContactorFails || Board.Cycle - coilChanged >= ContactorDelay)
            Board.SetInput(BoardPin.ContactorFeedback, coil && !ContactorFails);
    }
}
