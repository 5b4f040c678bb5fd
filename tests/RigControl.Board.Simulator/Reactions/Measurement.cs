namespace RigControl.Board.Simulator.Reactions;

/// <summary>How long a reaction took, in ms from the event.</summary>
/// <param name="Stop">To the falling edge of the first complete stop pulse; of the last pulse where pulses cease.</param>
/// <param name="Wave">To the last rising edge of the power square wave.</param>
/// <param name="Coil">To the contactor's coil being let go by the modelled charge pump.</param>
public readonly record struct Measurement(double Stop, double Wave, double Coil)
{
    /// <summary>The worse of two, each time by itself.</summary>
    public Measurement Worse(Measurement other) =>
        new(Math.Max(Stop, other.Stop), Math.Max(Wave, other.Wave), Math.Max(Coil, other.Coil));
}
