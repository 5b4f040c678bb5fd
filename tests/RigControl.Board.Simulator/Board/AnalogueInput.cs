namespace RigControl.Board.Simulator.Board;

/// <summary>Analogue inputs of the rig board; the value is the converter's channel.</summary>
public enum AnalogueInput
{
    /// <summary>Pack voltage behind a divider.</summary>
    Voltage = 0,

    /// <summary>Current sensor; mid-scale is 0 A.</summary>
    Current = 1,

    /// <summary>First thermistor with its series resistor.</summary>
    Thermistor1 = 2,

    /// <summary>Second thermistor with its series resistor.</summary>
    Thermistor2 = 3,
}
