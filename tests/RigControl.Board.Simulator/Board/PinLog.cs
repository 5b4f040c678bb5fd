namespace RigControl.Board.Simulator.Board;

/// <summary>Collects what the output pins did: pulses, edges of the power square wave, and every edge for comparison.</summary>
public sealed class PinLog
{
    private readonly Edge[] room = new Edge[4096];
    private ulong? rise;

    /// <summary>Complete servo pulses in order of time.</summary>
    public List<Pulse> Pulses { get; } = [];

    /// <summary>Cycles of the power square wave's edges, both directions.</summary>
    public List<ulong> PowerEdges { get; } = [];

    /// <summary>Cycles of the tachometer's falling edges.</summary>
    public List<ulong> TachometerEdges { get; } = [];

    /// <summary>Cycle of the last rising edge of the servo pulse, complete or not; 0 for none yet.</summary>
    public ulong LastRise { get; private set; }

    /// <summary>Fetches what <paramref name="board"/> has done since the last call.</summary>
    public void Fetch(SimulatedBoard board)
    {
        int count;
        while ((count = board.ReadEdges(room)) > 0)
            foreach (ref readonly Edge edge in room.AsSpan(0, count))
                Add(edge);
    }

    /// <summary>Forgets everything but a pulse that has begun.</summary>
    public void Clear()
    {
        Pulses.Clear();
        PowerEdges.Clear();
        TachometerEdges.Clear();
    }

    private void Add(in Edge edge)
    {
        if (edge.Pin == BoardPin.PowerWatch)
            PowerEdges.Add(edge.Cycle);
        else if (edge.Pin == BoardPin.Tachometer)
            TachometerEdges.Add(edge.Cycle);
        else if (edge.Pin == BoardPin.ServoPulse)
            AddServo(edge);
    }

    private void AddServo(in Edge edge)
    {
        if (edge.Rising)
            LastRise = edge.Cycle;
        else if (rise is { } start)
            Pulses.Add(new Pulse(start, edge.Cycle));
        rise = edge.Rising ? edge.Cycle : null;
    }
}
