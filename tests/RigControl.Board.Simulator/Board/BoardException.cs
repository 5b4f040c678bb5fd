namespace RigControl.Board.Simulator.Board;

/// <summary>The simulated board cannot start or has stopped for good; the message says why and what to do.</summary>
public sealed class BoardException(string message) : Exception(message);
