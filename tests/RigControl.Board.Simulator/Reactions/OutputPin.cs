using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;

namespace RigControl.Board.Simulator.Reactions;

/// <summary>An output whose reaction is measured, and how it is driven before.</summary>
/// <param name="Pin">Where the pulses come out.</param>
/// <param name="Driven">Pulse before the event, µs.</param>
/// <param name="Tolerance">How far a driven pulse may be off, µs.</param>
/// <param name="Spin">Brings a board to it.</param>
public sealed record OutputPin(BoardPin Pin, int Driven, double Tolerance, Action<Trial> Spin)
{
    private const double Exact = 0.5;

    /// <summary>What stamping the receiver's edges may add, µs.</summary>
    private const double StampError = 20;

    /// <summary>What the second output's pulses are off at most, µs: their steps of 4, and what other interrupts add to an edge.</summary>
    private const double SecondError = 34;

    private const int SecondDriven = 1900;
    private static readonly (int Stop, int Least, int Greatest) SecondRange = (1500, 1000, 2000);

    /// <summary>The output, driven by the host.</summary>
    public static OutputPin First { get; } = new(BoardPin.ServoPulse, Trial.SpinPulse, Exact, trial => trial.Spin());

    /// <summary>The output, driven by the receiver through the gate.</summary>
    public static OutputPin Gated { get; } = new(BoardPin.ServoPulse, Trial.SpinPulse, StampError, trial => trial.SpinThroughGate(Trial.SpinPulse));

    /// <summary>The second output, while both are driven.</summary>
    public static OutputPin Second { get; } = new(BoardPin.SecondPulse, SecondDriven, SecondError, trial => trial.SpinSecond(SecondDriven));

    /// <summary>How far a stop pulse may be off, µs.</summary>
    public double StopTolerance => IsSecond ? Tolerance : Exact;

    private bool IsSecond => Pin == BoardPin.SecondPulse;

    /// <summary>A configuration with this output on it.</summary>
    public BoardConfiguration On(BoardConfiguration configuration) => IsSecond ? configuration with { Second = SecondRange } : configuration;

    /// <summary>The complete pulses that came out of it.</summary>
    public List<Pulse> Pulses(PinLog pins) => IsSecond ? pins.SecondPulses : pins.Pulses;

    /// <summary>Its stop pulse, µs.</summary>
    public int StopOf(BoardConfiguration configuration) => IsSecond ? configuration.Second!.Value.Stop : configuration.StopPulse;
}
