namespace RigControl.Board.Simulator.Board;

/// <summary>Follows the pins: pulses, the power square wave and what it holds, the tachometer's marks.</summary>
/// <param name="remember">Whether everything is kept, or only the latest.</param>
public sealed class PinLog(bool remember = true)
{
    private readonly Edge[] room = new Edge[1024];
    private ChargePump pump;
    private ulong? rise;
    private ulong? secondRise;

    /// <summary>Complete servo pulses in order of time.</summary>
    public List<Pulse> Pulses { get; } = [];

    /// <summary>Complete pulses of the second output in order of time.</summary>
    public List<Pulse> SecondPulses { get; } = [];

    /// <summary>Cycles of the power square wave's rising edges: only these carry charge.</summary>
    public List<ulong> PowerRises { get; } = [];

    /// <summary>Cycles of the tachometer's falling edges.</summary>
    public List<ulong> Marks { get; } = [];

    /// <summary>The last complete servo pulse; zero for none yet.</summary>
    public Pulse LastPulse { get; private set; }

    /// <summary>Cycle of the last rising edge of the servo pulse, complete or not; 0 for none yet.</summary>
    public ulong LastRise { get; private set; }

    /// <summary>Cycle of the tachometer's last falling edge; 0 for none yet.</summary>
    public ulong LastMark { get; private set; }

    /// <summary>Cycle at which the receiver's last pulse ended; 0 for none yet.</summary>
    public ulong LastReceived { get; private set; }

    /// <summary>The charge pump behind the power square wave.</summary>
    public ChargePump Pump => pump;

    /// <summary>Fetches what <paramref name="board"/> has done since the last call.</summary>
    public void Fetch(SimulatedBoard board)
    {
        int count;
        while ((count = board.ReadEdges(room)) > 0)
            foreach (ref readonly Edge edge in room.AsSpan(0, count))
                Add(edge);
        pump.Settle(board.Cycle);
    }

    /// <summary>Forgets the lists.</summary>
    public void Clear()
    {
        Pulses.Clear();
        SecondPulses.Clear();
        PowerRises.Clear();
        Marks.Clear();
    }

    private void Add(in Edge edge)
    {
        if (edge.Pin == BoardPin.PowerWatch)
            AddPower(edge);
        else if (edge.Pin == BoardPin.ServoPulse)
            AddServo(edge);
        else if (edge.Pin == BoardPin.Tachometer)
            AddMark(edge);
        else if (edge.Pin == BoardPin.Receiver)
            LastReceived = edge.Cycle;
        else if (edge.Pin == BoardPin.SecondPulse)
            AddSecond(edge);
    }

    private void AddPower(in Edge edge)
    {
        if (!edge.Rising)
            return;
        pump.Rise(edge.Cycle);
        if (remember)
            PowerRises.Add(edge.Cycle);
    }

    private void AddMark(in Edge edge)
    {
        LastMark = edge.Cycle;
        if (remember)
            Marks.Add(edge.Cycle);
    }

    private void AddSecond(in Edge edge)
    {
        if (!edge.Rising && secondRise is { } start && remember)
            SecondPulses.Add(new Pulse(start, edge.Cycle));
        secondRise = edge.Rising ? edge.Cycle : null;
    }

    private void AddServo(in Edge edge)
    {
        if (edge.Rising)
            LastRise = edge.Cycle;
        else if (rise is { } start)
            LastPulse = new Pulse(start, edge.Cycle);
        if (!edge.Rising && rise != null && remember)
            Pulses.Add(LastPulse);
        rise = edge.Rising ? edge.Cycle : null;
    }
}
