using System.CommandLine;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Inertias;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Loading;
using RigControl.Cli.Reckonings;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>reckon pendulum</c>: a rotor's inertia from hanging it on threads and timing its swings.</summary>
internal static class ReckonPendulum
{
    // Beyond it the series of the correction no longer follows the swing.
    private const double Widest = 0.6;

    private static readonly Option<string> Two = ReckonCommand.Stated("--two-threads", "Distance of two threads from each other");
    private static readonly Option<string> Three = ReckonCommand.Stated("--three-threads", "Radius of the circle that three threads hang on");
    private static readonly Option<string> Mass = ReckonCommand.Stated("--mass", "All that hangs on the threads", required: true);
    private static readonly Option<string> Length = ReckonCommand.Stated("--length", "Length of a thread", required: true);
    private static readonly Option<string> Amplitude = ReckonCommand.Stated("--amplitude", "Widest turn from rest, 34 deg at most, counts as exact (none means a small one)");
    private static readonly Option<string> Platform = ReckonCommand.Stated("--platform", "Inertia of the platform that was timed alone before, to be taken off");

    private static readonly Option<double[]> Timings = new("--timing") { Description = "Time of all swings together, s, once for every timing.", HelpName = "SECONDS", Required = true };
    private static readonly Option<int> Swings = new("--swings") { Description = "Swings to and fro in each timing.", HelpName = "N", Required = true };
    private static readonly Option<double> Watch = new("--watch") { Description = "Step of the watch, or of the hand that stops it, s.", HelpName = "SECONDS", Required = true };
    private static readonly Option<bool> Json = CommonOptions.Json();

    public static Command Build()
    {
        Command command = new("pendulum", "A rotor's inertia from its swings on two or three threads.") { Two, Three, Mass, Length, Timings, Swings, Watch, Amplitude, Platform, Json };
        command.SetAction(parsed => Reckoned.Write(parsed.GetValue(Json), Reckoned.Of("inertia", "kg.m2", parsed.GetValue(Two) is null ? "trifilar pendulum" : "bifilar pendulum", Formula(parsed))));
        return command;
    }

    private static Func<Measured> Formula(ParseResult parsed)
    {
        (string? two, string? three) = (parsed.GetValue(Two), parsed.GetValue(Three));
        if (two is null == three is null)
            throw new CliException(ExitCode.BadInput, "write either --two-threads or --three-threads");
        Input mass = StatedValue.Positive(parsed.GetValue(Mass)!, "mass", "kg"), length = StatedValue.Positive(parsed.GetValue(Length)!, "length", "m");
        Input apart = StatedValue.Positive((two ?? three)!, two is null ? "radius" : "distance", "m"), period = Period(parsed);
        double amplitude = parsed.GetValue(Amplitude) is { } wide ? Math.PI / 180 * StatedValue.Read(wide, "amplitude", "deg").Value : 0;
        if (amplitude is < 0 or > Widest)
            throw new CliException(ExitCode.BadInput, "--amplitude is 0 to 34 deg");
        Measured Together() => two is null ? PendulumInertia.Trifilar(mass, apart, length, period, amplitude) : PendulumInertia.Bifilar(mass, apart, length, period, amplitude);
        if (parsed.GetValue(Platform) is not { } text)
            return Together;
        Input platform = StatedValue.Positive(text, "platform", "kg.m2");
        return () => PendulumInertia.Less(Together(), new Measured(platform.Value, platform.Uncertainty)) is { Value: > 0 } own
            ? own
            : throw new NoFigureException("the platform alone has more than what hung together");
    }

    private static Input Period(ParseResult parsed)
    {
        (double[] timings, int swings, double watch) = (parsed.GetValue(Timings)!, parsed.GetValue(Swings), parsed.GetValue(Watch));
        return timings.All(t => t > 0 && double.IsFinite(t)) && swings > 0 && watch > 0 && double.IsFinite(watch)
            ? PendulumInertia.Period(timings, swings, watch)
            : throw new CliException(ExitCode.BadInput, "--timing, --swings and --watch are above 0");
    }
}
