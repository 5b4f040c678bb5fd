namespace RigControl.Board.Simulator.Board;

/// <summary>What resets the processor from outside. The watchdog's reset comes from the firmware's own silence.</summary>
public enum ResetCause
{
    /// <summary>Supply switched on.</summary>
    PowerOn = 0,

    /// <summary>Reset pin pulled low.</summary>
    ResetPin = 1,

    /// <summary>Supply dipped below the brown-out level.</summary>
    BrownOut = 2,
}
