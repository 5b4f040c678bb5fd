using System.Globalization;
using RigControl.Contracts;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Opening;

/// <summary>
/// What the board is told to do and to watch, from the article's controller profile and the rig's options. Rounding goes
/// towards the stricter side: a limit in the board is never wider than the one that was written.
/// </summary>
internal static class ConfigurationOfRig
{
    private const double LeastPulse = 800;
    private const double GreatestPulse = 2200;
    private const double MicrosecondsInMinute = 60e6;
    private const double ReadingTime = 0.0003;
    // The board stops by itself after 100 ms without a host: two scans must fit into that with room to spare.
    private static readonly TimeSpan LongestScan = TimeSpan.FromMilliseconds(40);

    /// <summary>Throws <see cref="OptionException"/> when options and article do not fit together or exceed what the board can do.</summary>
    public static BoardConfiguration Build(RigBoardOptions options, Article article)
    {
        Require(options, article);
        ControllerProfile controller = article.Controller;
        int stop = Whole(controller.StopPulse);
        int reach = CurrentReach(options);
        return new BoardConfiguration
        {
            StopPulse = stop,
            LeastPulse = Whole(Math.Min(controller.MinimumPulse, controller.MaximumPulse)),
            GreatestPulse = Whole(Math.Max(controller.MinimumPulse, controller.MaximumPulse)),
            ArmingPulse = stop,
            Rate = Whole(options.ServoRate),
            PulsesPerRevolution = options.PulsesPerRevolution,
            ShortestRevolution = (int)Math.Ceiling(MicrosecondsInMinute / options.OverSpeed),
            LowestCurrent = 512 - reach,
            HighestCurrent = 512 + reach,
            CurrentReadings = Math.Max(1, (int)(options.OverCurrentFor / ReadingTime)),
            TachometerLost = options.Tachometer ? Milliseconds(options.TachometerLostAfter) : null,
            TachometerFrom = Math.Max(1, (int)(Math.Abs(controller.PulseFor(options.TachometerWatchedFrom / 100) - stop))),
            ContactorTime = Milliseconds(options.ContactorTime),
            LidDisagreement = Milliseconds(options.LidDisagreement),
            ClosingFilter = (int)Math.Ceiling(options.ClosingFilter * 1000 - 1e-9),
            Ceases = options.OnTrip == TripOutput.NoPulses,
            Second = article.SecondController is { } second
                ? new SecondOutput(Whole(second.StopPulse), Whole(second.MinimumPulse), Whole(second.MaximumPulse))
                : null,
        };
    }

    /// <summary>Throws <see cref="OptionException"/> when scans are too rare to keep the board fed: it wants a demand every 50 ms.</summary>
    public static void RequireScanRate(TimeSpan scanPeriod)
    {
        if (scanPeriod > LongestScan)
            throw new OptionException("the rig board stops when it hears nothing for 100 ms; write a scan of 25 Hz or more");
    }

    private static void Require(RigBoardOptions options, Article article)
    {
        if (string.IsNullOrWhiteSpace(options.Port))
            throw new OptionException("port is missing; write the board's serial port, such as /dev/ttyUSB0");
        RequirePulses(article.Controller, "");
        if (article.SecondController is { } second)
            RequirePulses(second, "second ");
        RequireSpeed(options, article);
        if (options.OnTrip == TripOutput.NoPulses && !(StopsWithoutPulses(article.Controller) && StopsWithoutPulses(article.SecondController)))
            throw new OptionException($"on-trip is no-pulses, but {article.Name} does not declare that its controller stops when pulses cease; write stop-pulse");
        if (CurrentReach(options) is < 1 or > 510)
        {
            throw new OptionException(Text(
                $"over-current is {options.OverCurrent} A, which a sensor of {options.CurrentFullScale} A full scale cannot tell; write less than {options.CurrentFullScale * 511 / 512:0.###} A and at least {options.CurrentFullScale / 512:0.###} A"));
        }
    }

    private static bool StopsWithoutPulses(ControllerProfile? controller) => controller is null or { WhenPulsesCease: CeasedPulseBehaviour.Stops };

    private static void RequirePulses(ControllerProfile controller, string which)
    {
        foreach ((string name, double pulse) in new[] { ("stop", controller.StopPulse), ("minimum", controller.MinimumPulse), ("maximum", controller.MaximumPulse) })
        {
            if (!(pulse is >= LeastPulse and <= GreatestPulse))
                throw new OptionException(Text($"the article's {which}{name} pulse is {pulse} us, but the rig board puts out {LeastPulse} us to {GreatestPulse} us"));
        }
    }

    private static void RequireSpeed(RigBoardOptions options, Article article)
    {
        if (article.Rotor is { } rotor && !(options.OverSpeed <= rotor.MaximumSpeed))
            throw new OptionException(Text($"over-speed is {options.OverSpeed} rpm, above the {rotor.MaximumSpeed} rpm that the rotor of {article.Name} allows; write that or less"));
        if (options.Tachometer && double.IsNaN(options.TachometerLostAfter))
            throw new OptionException("tachometer-lost-after is missing; write 0.02 s to 10 s");
    }

    // Counts from mid-scale to the last reading that is still within the limit.
    private static int CurrentReach(RigBoardOptions options) => (int)Math.Min(options.OverCurrent / options.CurrentFullScale * 512, 9999);

    private static int Whole(double value) => (int)Math.Round(value, MidpointRounding.AwayFromZero);

    private static int Milliseconds(double seconds) => (int)(seconds * 1000 + 1e-9);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
