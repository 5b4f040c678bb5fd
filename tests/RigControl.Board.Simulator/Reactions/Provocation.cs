using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;

namespace RigControl.Board.Simulator.Reactions;

/// <summary>Something that must stop the output.</summary>
/// <param name="Name">What happens.</param>
/// <param name="Event">From when the time counts.</param>
/// <param name="Detection">Time that the board may take to be sure under a configuration, ms.</param>
/// <param name="Provoke">Makes it happen and returns the event's cycle.</param>
public sealed record Provocation(string Name, string Event, Func<BoardConfiguration, double> Detection, Func<Trial, ulong> Provoke)
{
    /// <summary>Longest pulse, ms.</summary>
    private const double LongestPulse = 2;

    /// <summary>Longest time between two checks of the main loop, ms: 0.5 by the clock, up to twice that while a line is written.</summary>
    private const double Check = 1;

    /// <summary>Time between two current readings, ms.</summary>
    private const double Reading = 0.25;

    /// <summary>Time within which a hanging program must have let go of everything, ms.</summary>
    private const double HangLimit = 80;

    private const double OverCurrentMillivolts = 4700;

    /// <summary>Time without a receiver's pulse after which the board calls it silent, ms.</summary>
    private const double ReceiverSilence = 100;

    /// <summary>Time for which the converter may stand still, ms.</summary>
    private const double ConverterStill = 5;

    /// <summary>Longer than the receiver's own frame, s.</summary>
    private const double ReceiverFrameTime = 0.021;

    /// <summary>A pulse that no receiver gives, µs.</summary>
    private const double NoReceiversPulse = 2300;

    /// <summary>Whether pulses cease instead of turning into stop pulses.</summary>
    public bool Ceases { get; init; }

    /// <summary>The output that is looked at.</summary>
    public OutputPin Output { get; init; } = OutputPin.First;

    /// <summary>A lid contact pair opens.</summary>
    public static Provocation LidOpens { get; } = new("lid opens", "the contacts change", _ => 0, trial => Now(trial, stand => stand.Lid(closed: false)));

    /// <summary>The first contact of the lid opens alone: the pair disagrees.</summary>
    public static Provocation LidContactA { get; } = new(
        "lid contact A opens alone", "the contact changes", _ => 0, trial => Now(trial, stand => stand.BreakLidContact(BoardPin.LidA)));

    /// <summary>The second contact of the lid opens alone.</summary>
    public static Provocation LidContactB { get; } = new(
        "lid contact B opens alone", "the contact changes", _ => 0, trial => Now(trial, stand => stand.BreakLidContact(BoardPin.LidB)));

    /// <summary>The stop circuit opens.</summary>
    public static Provocation StopPressed { get; } = new("stop pressed", "the circuit opens", _ => 0, trial => Now(trial, stand => stand.Stop(clear: false)));

    /// <summary>The host says no more.</summary>
    public static Provocation HostSilent { get; } = new("host falls silent", "last byte of its last demand", _ => 100, Silence);

    /// <summary>The rotor turns faster than permitted.</summary>
    public static Provocation OverSpeed { get; } = new("over-speed", "mark that ends the first revolution too short", _ => Check, Overspeed);

    /// <summary>The current is beyond its limit: four readings, one each 0.25 ms, the first up to 0.25 ms late.</summary>
    public static Provocation OverCurrent { get; } = new(
        "over-current", "the current steps beyond the limit", configuration => Reading * (configuration.CurrentReadings + 1) + Check,
        trial => Now(trial, stand => stand.Board.SetMillivolts(AnalogueInput.Current, OverCurrentMillivolts)));

    /// <summary>No more marks come; the time runs from the check that saw the last one.</summary>
    public static Provocation TachometerLost { get; } = new("tachometer lost", "the last mark", configuration => (configuration.TachometerLost ?? 0) + 2 * Check, LoseTachometer);

    /// <summary>The contactor opens by itself.</summary>
    public static Provocation ContactorOpens { get; } = new(
        "contactor opens by itself", "its feedback changes", configuration => configuration.ContactorTime + Check, trial => Now(trial, stand => stand.ContactorFails = true));

    /// <summary>The receiver gives no more pulses while it drives.</summary>
    public static Provocation ReceiverSilent { get; } = new(
        "receiver falls silent, gate open", "its last pulse ends", _ => ReceiverSilence + Check, trial => Received(trial, Trial.SpinPulse)) { Output = OutputPin.Gated };

    /// <summary>The receiver gives a pulse that none gives while it drives.</summary>
    public static Provocation ReceiverAstray { get; } = new(
        "receiver's pulse too long, gate open", "that pulse ends", _ => Check, trial => Received(trial, NoReceiversPulse)) { Output = OutputPin.Gated };

    /// <summary>A conversion of the analogue inputs never ends; the time runs from the check that saw the last reading.</summary>
    public static Provocation ConverterStandsStill { get; } = new(
        "converter stands still", "a conversion no longer ends", _ => ConverterStill + 2 * Check, trial => Now(trial, stand => stand.Board.StallConverter(true)));

    /// <summary>The main loop spins with interrupts on.</summary>
    public static Provocation Hang { get; } = new("firmware hangs", "the main loop is caught", _ => 0, trial => Now(trial, stand => stand.Board.Hang())) { Ceases = true };

    /// <summary>The program spins with interrupts off.</summary>
    public static Provocation DeadHang { get; } = new(
        "firmware hangs, interrupts off", "the main loop is caught", _ => 0, trial => Now(trial, stand => stand.Board.Hang(interruptsOn: false))) { Ceases = true };

    /// <summary>Longest time permitted from the event to the reaction, ms: to be sure, a frame, a pulse.</summary>
    public double Allowed(BoardConfiguration configuration) =>
        Ceases ? HangLimit : Detection(configuration) + 1000.0 / configuration.Rate + LongestPulse;

    /// <summary>The same, looked at on the second output.</summary>
    public Provocation OnSecond() => this with { Name = Name + ", second output", Output = OutputPin.Second };

    private static ulong Now(Trial trial, Action<Stand> act)
    {
        ulong at = trial.Stand.Board.Cycle;
        act(trial.Stand);
        return at;
    }

    private static ulong Silence(Trial trial)
    {
        trial.Host.Speaking = false;
        return trial.Host.LastSpoken;
    }

    private static ulong LoseTachometer(Trial trial)
    {
        trial.Stand.Turn(0);
        return trial.Stand.Pins.LastMark;
    }

    // One last pulse, so that its end falls where the phase asks for and not where the receiver's own frame happens to be.
    private static ulong Received(Trial trial, double microseconds)
    {
        trial.Stand.Receive(0);
        trial.Host.RunUntil(trial.Stand.Board.Cycle + trial.Frame * (1 + BoardClock.Cycles(ReceiverFrameTime) / trial.Frame));
        trial.Stand.Receive(microseconds);
        trial.Host.Run(Check);
        trial.Stand.Receive(0);
        trial.Host.Run(2 * LongestPulse);
        return trial.Stand.Pins.LastReceived;
    }

    private static ulong Overspeed(Trial trial)
    {
        double limit = trial.Host.Configuration.ShortestRevolution;
        ulong last = trial.Stand.Pins.LastMark;
        trial.Stand.Turn(limit * 0.9);
        for (; ; )
        {
            trial.Host.Run(0.1);
            ulong mark = trial.Stand.Pins.LastMark;
            if (mark != last && mark - last < limit * BoardClock.Microsecond)
                return mark;
            last = mark;
        }
    }
}
