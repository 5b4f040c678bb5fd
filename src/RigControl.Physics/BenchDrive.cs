namespace RigControl.Physics;

/// <summary>What the bench is told to do. The zero value is the safe one: no pulse, no power, lid locked.</summary>
/// <param name="PulseMicroseconds">Servo pulse that arrives at the controller, us; 0 when none does.</param>
/// <param name="PowerRequested">Whether the contactor's coil is asked to hold.</param>
/// <param name="UnlockRequested">Whether the bolt's release is energised.</param>
public readonly record struct BenchDrive(double PulseMicroseconds, bool PowerRequested, bool UnlockRequested);
