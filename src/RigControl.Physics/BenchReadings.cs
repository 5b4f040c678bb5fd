namespace RigControl.Physics;

/// <summary>The two-valued inputs as wires carry them, faults of contacts included. The zero value is the safe one.</summary>
/// <param name="LidContactA">Closed with the lid.</param>
/// <param name="LidContactB">Open with the lid closed.</param>
/// <param name="BoltHome">Bolt switch closed.</param>
/// <param name="StopCircuitClosed">Stop not pressed.</param>
/// <param name="ContactorClosed">Mirror contact says closed.</param>
/// <param name="RadioLinked">The receiver hears its transmitter.</param>
public readonly record struct BenchReadings(
    bool LidContactA, bool LidContactB, bool BoltHome, bool StopCircuitClosed, bool ContactorClosed, bool RadioLinked);
