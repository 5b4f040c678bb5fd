using RigControl.Analysis.Comparing;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Reports.Pages;
using RigControl.Reports.Plots;

namespace RigControl.Reports.Tests;

/// <summary>Reports with everything in them that a report may have, long words included.</summary>
internal static class SamplePages
{
    private const string Digest = "46b15dca0819f19310dd4f3ca8b0ac8e425d897371186663329a68da2be8102b";

    public static RunReport Run() => new(Header("enclosed-spin-up"), "safe-stop", new RunEnd(RunOutcome.SafeStop, DateTimeOffset.UnixEpoch, null))
    {
        Figures = [.. Enumerable.Range(1, 3).SelectMany(repeat => new[] { Figure("spin-up-time", 0.75 + 0.005 * repeat, "s", repeat), Figure("steady-speed", 7400 - 6.0 * repeat, "rpm", repeat) }), new("drag-constant", null, "N.m", null, null, 1, "fit", "the article declares no inertia")],
        Events =
        [
            new(TimeSpan.FromSeconds(6.555), 1311, EventNames.Trip, "over-speed", "rotor 10050 rpm is above the limit of 10000 rpm", new Dictionary<string, object> { ["reaction"] = 0.0052 }),
            new(TimeSpan.Zero, 0, EventNames.FailsafeConfirmed, "", "confirmed by the simulated bench itself: nothing real is behind it", new Dictionary<string, object>()),
        ],
        Remarks = [new(RemarkKind.Incident, DateTimeOffset.UnixEpoch, "school workshop", "", "a smell of lacquer from the controller", 4), new(RemarkKind.PartChanged, DateTimeOffset.UnixEpoch, "school workshop", "belt", "the shorter one", null)],
        Files = [new("/clips/" + new string('a', 120) + ".mp4", Digest, 17, DateTimeOffset.UnixEpoch, 1.25)],
        Tags = ["old-belt"],
        Margins = [new("over-speed", -0.005, "rotor 10050 rpm is above the limit of 10000 rpm", 6.555), new("controller-temperature", 0.77, "controller 20.8 °C is within the ceiling of 90 °C", 6.5)],
        Panels = Panel.Of([("rotor.speed", Rise("rpm", 7400)), ("motor.temperature", Rise("degC", 31)), ("controller.temperature", Rise("degC", 25)), ("battery.temperature", Rise("degC", 22))]),
        Cautions = ["The samples were taken away on 2031-05-04: the figures cannot be computed anew."],
    };

    public static RunReport Verification() => new(Header("failsafe-verification"), "completed", new RunEnd(RunOutcome.Completed, DateTimeOffset.UnixEpoch, null))
    {
        Verification = new("The failsafe was verified; the proof is good until 2031-05-04 12:26 UTC",
        [
            ("lid-opened", "enclosure.lid below 0.5", null, null, true),
            ("pulse-heat-controller-temperature", "controller-temperature objects, then output.throttle below 6 %", 0.075, 0.2, true),
        ]),
        Events =
        [
            new(TimeSpan.FromSeconds(17), 3400, EventNames.Trip, "provoked", "what was provoked was seen to its end", new Dictionary<string, object>()),
            new(TimeSpan.FromSeconds(17.005), 3401, EventNames.Trip, "lid-closed", "the lid is open: enclosure.lid reads 0, not 1", new Dictionary<string, object>()),
        ],
        Panels = Panel.Of([("rotor.speed", Rise("rpm", 1300))]),
    };

    public static ComparisonReport Comparison()
    {
        Figure[] Of(double time, double speed, double rise) => [Figure("spin-up-time", time, "s", 1), Figure("steady-speed", speed, "rpm", 1), Figure("temperature-rise", rise, "K", 1)];
        IReadOnlyList<ComparedFigure> figures = Analysis.Comparing.Comparison.Of(
            [Of(2.00, 9000, 4), Of(2.01, 9050, 5), Of(1.99, 8950, 6)], [Of(1.80, 9010, 5), Of(1.81, 8960, 4), Of(1.79, 9060, 6)], sameRig: true, fresh: false);
        return new ComparisonReport("disc-180", false, new("tag:old-belt", ["a", "b", "c"]), new("tag:new-belt", ["d", "e", "f"]), figures)
        {
            Conditions = ["the article files differ in pack (capacity: 1300 mAh against capacity: 1500 mAh)"], Parts = ["before run d: belt: shorter"],
            Why = new SpinUpSplit(700, new(0.75, 0.003), new(0.96, 0.003), new WhySlower(new(0.01, 0.02), new(-0.0004, 0.0001), new(0.002, 0.0005), new(0.2, 0.004), new(-0.003, 0.01)), (3, 2)),
            Panels = Panel.Of([("rotor.speed, tag:old-belt", Rise("rpm", 9000)), ("rotor.speed, tag:new-belt", Rise("rpm", 9010))]),
        };
    }

    private static Figure Figure(string name, double value, string unit, int repeat) => new(name, value, unit, value * 0.002, (value * 0.996, value * 1.004), repeat, "as measured", null)
    {
        Budget = [new("scatter of the readings", value * 0.0018, 0.81), new("moment of the demand", value * 0.00087, 0.19)],
    };

    private static Series Rise(string unit, double to)
    {
        double[] times = [.. Enumerable.Range(0, 400).Select(i => i / 50.0)];
        return new Series(unit, 1, times, [.. times.Select(t => to * (1 - Math.Exp(-t)))]);
    }

    private static RunHeader Header(string procedure) => new()
    {
        Run = "jsh4vhps", StartedAt = DateTimeOffset.UnixEpoch, Simulated = true, Seed = 1, Operator = "school workshop", Software = "0.1.0", Clock = "real, monotonic",
        Procedure = new(procedure, $"procedure: {procedure}\n"), Rig = new("simulated-box", "rig: simulated-box\n" + new string('x', 200) + "\n"), Article = new("disc-180", "article: disc-180\n"),
        Plugins = [new("RigControl.Devices.SimulatedRig", "0.1.0", Digest)], Interlocks = [new("over-speed", "over-speed", new Dictionary<string, string> { ["channel"] = "rotor.speed", ["limit"] = "10000" })],
        Devices = [new("bench", "simulated-rig", true, new Dictionary<string, string>()) { Options = Enumerable.Range(0, 20).ToDictionary(i => $"an-option-of-the-bench-{i}", i => "100") }],
        Channels = [new Channel(0, "rotor.speed", 0, new ChannelDeclaration { Name = "rotor.speed", Unit = "rpm", Minimum = 0, Maximum = 1e5, Period = TimeSpan.FromMilliseconds(1), MaximumAge = TimeSpan.FromMilliseconds(5) })],
    };
}
