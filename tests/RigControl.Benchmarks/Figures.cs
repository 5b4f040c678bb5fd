using System.Diagnostics;
using System.Globalization;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Rig;

namespace RigControl.Benchmarks;

/// <summary>Every figure of a minute of sixteen channels at 1 kHz, beside the same estimators written with a general numerical library.</summary>
internal static class Figures
{
    // The program is compiled anew, beside its work, for as long as it finds what runs often: only then is it warm.
    private const int WarmingUp = 60;
    private const int Rounds = 60;

    public static IEnumerable<Row> Measure()
    {
        Dictionary<string, Series> channels = MinuteTrace.Make();
        string[] names = [.. FigureCatalog.Names];
        double[] rounds = new double[WarmingUp + Rounds];
        long bytes = 0;
        int values = 0;
        for (int i = 0; i < rounds.Length; i++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            double began = Processor();
            FigureInput input = new(new Analysis.Traces.Trace(channels, SegmentFinder.Of(channels).Segments), Disc, FigureContext.UsualRestSpeed)
            {
                Asked = Everything, TemperatureLimits = Limits,
            };
            values = FigureCatalog.Compute(names, input).Count(f => f.Value is not null);
            rounds[i] = Processor() - began;
            bytes = GC.GetAllocatedBytesForCurrentThread() - before;
        }

        double[] warm = rounds[WarmingUp..];
        double best = warm.Min(), median = warm.Order().ElementAt(Rounds / 2);
        double? other = GeneralLibrary.Milliseconds(channels);
        yield return new Row(
            "every figure of 60 s of 16 channels at 1 kHz", string.Create(CultureInfo.InvariantCulture, $"median of {Rounds} warm rounds {median:0} ms of processor time, least {best:0} ms, {bytes / 1048576.0:0} MiB allocated, {values} figures"),
            other is { } ms ? string.Create(CultureInfo.InvariantCulture, $"the same estimators with scipy, least of its rounds: {ms:0} ms") : "scipy is not installed",
            other is { } time ? string.Create(CultureInfo.InvariantCulture, $"{time / median:0.0} times as fast, median beside its least") : "–");
    }

    // Nothing is left out for want of a number to ask it at.
    private static readonly AskedAt Everything = new() { After = 2, ToSpeed = 3000, Match = 180, Duty = 0.5 };
    private static readonly Dictionary<string, double> Limits = MinuteTrace.Warm.ToDictionary(channel => channel, _ => 80.0);

    // On a machine that others load, the wall clock tells of them.
    private static double Processor() => Process.GetCurrentProcess().TotalProcessorTime.TotalMilliseconds;

    private static Article Disc { get; } = new()
    {
        Name = "minute",
        Controller = new ControllerProfile
        {
            Mode = ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer, BrakesAtStop = false,
            WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(1),
        },
        Rotor = new Rotor(MinuteTrace.Inertia, 0.045, 0.18, 14_000),
        Motor = new Motor(1000, 0.06, 1.2, 30),
        Pack = new Pack(3, "LiPo", 1.3, 0.03),
        StoppingTime = TimeSpan.FromSeconds(1), LongestCoastDown = TimeSpan.FromSeconds(60), MaximumRise = 1,
    };
}
