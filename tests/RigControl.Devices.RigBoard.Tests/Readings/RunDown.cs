using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Readings;

namespace RigControl.Devices.RigBoard.Tests.Readings;

/// <summary>
/// A rotor that is driven steadily until time 0 and then runs down, in closed form: dw/dt = −(friction + drag w). The power goes off a tenth of
/// a second later. What passes of its marks is told as a board tells it.
/// </summary>
internal sealed class RunDown(double speed, double friction, double drag, int marks, double phase)
{
    /// <summary>How long it is driven before it runs down, s.</summary>
    public const double Driven = 1;

    // Marks that passed before anybody listened, s.
    private const double Before = 2;
    private const double Board = 100;
    private const double PowerOff = 0.1;
    private readonly double _terminal = friction / drag;
    private List<double>? _passing;

    /// <summary>When the marks cease to be seen, s.</summary>
    public double LostAt { get; init; } = double.PositiveInfinity;

    /// <summary>Marks that are not seen, by their number back from the last that is.</summary>
    public int[] Missed { get; init; } = [];

    /// <summary>s, with friction above 0.</summary>
    public double RestAt => friction == 0 ? double.PositiveInfinity : Math.Log(1 + speed / _terminal) / drag;

    /// <summary>rpm.</summary>
    public double Speed(double t) => t <= 0 ? speed : t >= RestAt ? 0 : (speed + _terminal) * Math.Exp(-drag * t) - _terminal;

    /// <summary>When it has slowed to a speed, s.</summary>
    public double When(double slower) => Math.Log((speed + _terminal) / (slower + _terminal)) / drag;

    /// <summary>What the board says at a time, s.</summary>
    public BoardStatus At(double t)
    {
        List<double> passing = _passing ??= [.. Passing()];
        int seen = passing.BinarySearch(t) is var place && place < 0 ? ~place : place + 1;
        uint now = Clock(t);
        bool resting = seen == 0 || t - passing[seen - 1] >= RotorSpeed.LongestAge / 1e6;
        return new BoardStatus
        {
            Time = now, Pulses = (ushort)(65_530 + seen), Age = resting ? RotorSpeed.LongestAge : now - Clock(passing[seen - 1]),
            Period = resting || seen < 2 ? 0 : Clock(passing[seen - 1]) - Clock(passing[seen - 2]),
            Mode = t < 0 ? BoardMode.Spin : t < PowerOff ? BoardMode.Live : BoardMode.Idle,
            Bits = t < PowerOff ? BoardBits.ContactorClosed | BoardBits.PowerOn : BoardBits.None,
        };
    }

    private static uint Clock(double t) => (uint)((t + Board) * 1e6);

    private List<double> Passing()
    {
        List<double> times = [];
        double last = Turned(Math.Min(RestAt, 3600));
        for (double turned = (phase - Math.Floor(Before * speed / 60 * marks)) / marks; turned < last; turned += 1.0 / marks)
        {
            double t = Time(turned);
            if (t >= LostAt)
                break;
            times.Add(t);
        }

        return [.. times.Where((_, i) => !Missed.Contains(times.Count - 1 - i))];
    }

    private double Turned(double t) =>
        t <= 0 ? speed * t / 60 : ((speed + _terminal) * (1 - Math.Exp(-drag * t)) / drag - _terminal * t) / 60;

    private double Time(double turned)
    {
        (double from, double to) = (-2 * Before, Math.Min(RestAt, 3600));
        for (int i = 0; i < 60; i++)
            (from, to) = Turned((from + to) / 2) < turned ? ((from + to) / 2, to) : (from, (from + to) / 2);
        return to;
    }
}
