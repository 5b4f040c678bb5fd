using RigControl.Devices.RigBoard.Protocol;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Driving;

/// <summary>What one <c>drive</c> line asks of the board.</summary>
/// <param name="Pulse">us; 0 for no pulses, which the board takes only under power.</param>
/// <param name="Power">The contactor.</param>
/// <param name="Release">The lid lock's release.</param>
/// <param name="Marker">The marker light.</param>
/// <param name="Second">us on the second output; 0 where nothing is on it.</param>
/// <param name="Gate">Pass the receiver's pulse on instead of <paramref name="Pulse"/>.</param>
internal readonly record struct BoardDemand(int Pulse, bool Power, bool Release, bool Marker, int Second, bool Gate)
{
    /// <summary>
    /// The demand for the outputs of a scan. A pulse that the configuration does not permit becomes stop without power, and so does
    /// none without power: the board would refuse it and hear nothing.
    /// </summary>
    public static BoardDemand Of(in OutputImage outputs, BoardConfiguration configuration)
    {
        int? pulse = outputs is { Pulse: 0, Power: true } ? 0 : Whole(outputs.Pulse, configuration.LeastPulse, configuration.GreatestPulse);
        int? second = configuration.Second is { } other ? Whole(outputs.SecondPulse, other.LeastPulse, other.GreatestPulse) : 0;
        bool power = pulse is not null && second is not null && outputs.Power;
        BoardDemand demand = new(
            pulse ?? configuration.StopPulse, power, false, outputs.Marker, second ?? configuration.SecondStop,
            outputs.Gate && power == outputs.Power);
        return demand with { Release = outputs.Unlocked && !power && !demand.Drives(configuration) };
    }

    // Null for what the board would refuse.
    private static int? Whole(double pulse, int least, int greatest) => pulse >= least - 0.5 && pulse <= greatest + 0.5
        ? Math.Clamp((int)Math.Round(pulse, MidpointRounding.AwayFromZero), least, greatest)
        : null;

    /// <summary>Whether it asks for a pulse other than stop on an output, or lets the receiver do so.</summary>
    public bool Drives(BoardConfiguration configuration) => Gate || Pulse != configuration.StopPulse || Second != configuration.SecondStop;

    /// <summary>The same with the output at stop and without power: all that a board with a latched cause accepts.</summary>
    public BoardDemand Stopped(BoardConfiguration configuration) => this with
    {
        Pulse = configuration.StopPulse, Second = configuration.SecondStop, Power = false, Gate = false,
    };

    /// <summary>Whether it asks for less than <paramref name="before"/>, so that it may not wait.</summary>
    public bool Lowers(in BoardDemand before, BoardConfiguration configuration) =>
        (!Power && before.Power) || (!Gate && before.Gate) || (!Drives(configuration) && before.Drives(configuration)) || (!Release && before.Release);
}
