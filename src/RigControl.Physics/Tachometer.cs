namespace RigControl.Physics;

/// <summary>A pick-up that sees marks on the rotor, and the timer that measures the time between them.</summary>
/// <param name="PulsesPerRevolution">Marks, 1 or more.</param>
/// <param name="TimerTick">Resolution of the timer, s, above 0.</param>
/// <param name="Jitter">Standard deviation of an edge's time, s.</param>
public sealed record Tachometer(int PulsesPerRevolution, double TimerTick, double Jitter);
