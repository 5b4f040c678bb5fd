using RigControl.Devices.RigBoard.Protocol;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Driving;

/// <summary>What one <c>drive</c> line asks of the board.</summary>
/// <param name="Pulse">us.</param>
/// <param name="Power">The contactor.</param>
/// <param name="Release">The lid lock's release.</param>
/// <param name="Marker">The marker light.</param>
internal readonly record struct BoardDemand(int Pulse, bool Power, bool Release, bool Marker)
{
    /// <summary>
    /// The demand for the outputs of a scan. No pulse at all cannot be asked of the board and becomes stop without power, and
    /// so does any pulse that the configuration does not permit: the board would refuse it and hear nothing.
    /// </summary>
    public static BoardDemand Of(in OutputImage outputs, BoardConfiguration configuration)
    {
        bool permitted = outputs.Pulse >= configuration.LeastPulse - 0.5 && outputs.Pulse <= configuration.GreatestPulse + 0.5;
        int pulse = permitted ? (int)Math.Round(outputs.Pulse, MidpointRounding.AwayFromZero) : configuration.StopPulse;
        pulse = Math.Clamp(pulse, configuration.LeastPulse, configuration.GreatestPulse);
        bool power = permitted && outputs.Power;
        bool release = outputs.Unlocked && !power && pulse == configuration.StopPulse;
        return new BoardDemand(pulse, power, release, outputs.Marker);
    }

    /// <summary>Whether it asks for a pulse other than stop.</summary>
    public bool Drives(BoardConfiguration configuration) => Pulse != configuration.StopPulse;

    /// <summary>The same with the output at stop and without power: all that a board with a latched cause accepts.</summary>
    public BoardDemand Stopped(BoardConfiguration configuration) => this with { Pulse = configuration.StopPulse, Power = false };

    /// <summary>Whether it asks for less than <paramref name="before"/>, so that it may not wait.</summary>
    public bool Lowers(in BoardDemand before, BoardConfiguration configuration) =>
        (!Power && before.Power) || (!Drives(configuration) && before.Drives(configuration)) || (!Release && before.Release);
}
