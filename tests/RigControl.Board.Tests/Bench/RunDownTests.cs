using System.Globalization;
using System.Text.RegularExpressions;
using RigControl.Board.Simulator.Bench;
using RigControl.Board.Simulator.Line;
using RigControl.Devices.RigBoard.Readings;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Board.Tests.Bench;

/// <summary>
/// The demonstration's disc runs down on the real firmware, and the host's own reader says when it stands, by the standstill speed of
/// <c>procedures/board.rig.yaml</c>. What is measured here stands in <c>docs/board-host.md</c>.
/// </summary>
public sealed partial class RunDownTests(ITestOutputHelper output)
{
    private const double RpmPerRadian = 60 / (2 * Math.PI);

    // One turn where the power goes off, ms.
    private const double TurnOfStart = 50;
    private const int RunDowns = 12;

    // The standstill speed that the simulated rig has.
    private const double Lower = 60;
    private static readonly BoardConfiguration Configuration = new() { TachometerLost = 1000, ShortestRevolution = 5000 };

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void The_demonstration_s_disc_is_seen_to_stand_soon_after_it_does_wherever_in_a_turn_it_stops()
    {
        double limit = Limit();
        using BoardOnBench rig = Ready(out LineHost host);
        List<(double LastTurn, double Told, bool AtLower)> seen = [];
        for (int n = 0; n < RunDowns; n++)
        {
            Drive(rig, host, pulse: 1120, faster: 1000);
            host.Run(TurnOfStart * n / RunDowns);
            LastSeconds run = new(limit, Lower);
            double rest = Stop(rig, host, run);
            host.RunTo("the host says that it stands", () => Follow(rig, host, run) && run.Stands(0), 5000);
            host.Run(1000);
            run.See(host);
            seen.Add((run.LastTurn, run.ToldAt(0)!.Value - rest, run.Stands(1)));
            Assert.Equal(SpeedDoubt.None, run.Doubt);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"last turn {run.LastTurn:0} rpm, told {seen[^1].Told:0.00} s after it stood, at {Lower} rpm {(run.Stands(1) ? "too" : "not")}"));
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"last turns {seen.Min(s => s.LastTurn):0} to {seen.Max(s => s.LastTurn):0} rpm, told after {seen.Min(s => s.Told):0.00} to {seen.Max(s => s.Told):0.00} s, at {Lower} rpm {seen.Count(s => s.AtLower)} of {RunDowns}"));
        Assert.InRange(seen.Max(s => s.LastTurn), 4 * Lower, 4 * limit);
        Assert.All(seen, s => Assert.InRange(s.Told, 0, 3));
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void A_lead_lost_on_the_way_down_never_reads_as_a_disc_that_stands_while_it_turns()
    {
        using BoardOnBench rig = Ready(out LineHost host);
        foreach (double lost in new[] { 900.0, 590, 450, 390, 340, 280, 210, 140 })
        {
            Drive(rig, host, pulse: 1120, faster: 1000);
            LastSeconds run = new(Limit());
            (host.Pulse, host.Power) = (Configuration.StopPulse, false);
            host.RunTo("it slows", () => Follow(rig, host, run) && Rpm(rig) < lost, 10_000);
            rig.Bench.Faults.Tachometer = TachometerFault.Silent;
            double rest = Stop(rig, host, run);
            rig.Bench.Faults.Tachometer = TachometerFault.None;
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"lost at {lost} rpm: last read {run.LastTurn:0} rpm, at rest {run.Now - rest:0.00} s ago, {run.Doubt}"));
            // From 400 rpm it had more than a turn to go, however hard it stopped; from below it may be believed once it must have come to rest.
            if (lost > 400)
                Assert.Equal(SpeedDoubt.BrokeOff, run.Doubt);
        }
    }

    [Trait("Requirement", "SAF-093")]
    [Fact]
    public void A_lead_lost_under_drive_below_600_rpm_never_reads_as_a_disc_that_stands_while_it_turns()
    {
        using BoardOnBench rig = Ready(out LineHost host);
        Drive(rig, host, pulse: 1045, faster: 300);
        LastSeconds run = new(Limit());
        host.RunTo("it turns steadily", () => { Follow(rig, host, run); return run.LastTurn > 300; }, 3000);
        Assert.InRange(Rpm(rig), 300, 590);
        rig.Bench.Faults.Tachometer = TachometerFault.Silent;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"lost under drive at {Rpm(rig):0} rpm"));
        host.RunTo("the host doubts it", () => Follow(rig, host, run) && run.Doubt == SpeedDoubt.BrokeOff, 2000);
        Assert.InRange(Rpm(rig), 300, 590);
        Stop(rig, host, run);
        Assert.Equal((SpeedDoubt.BrokeOff, false), (run.Doubt, run.Stands(0)));
    }

    // Returns when it came to rest, s, and goes on for a second.
    private static double Stop(BoardOnBench rig, LineHost host, LastSeconds run)
    {
        (host.Pulse, host.Power) = (Configuration.StopPulse, false);
        host.RunTo("it comes to rest", () => Follow(rig, host, run) && Rpm(rig) == 0, 10_000);
        double rest = run.Now;
        double end = rest + 1;
        host.RunTo("a second passes", () => Follow(rig, host, run) && run.Now >= end, 2000);
        return rest;
    }

    // Whoever believes a stop here reaches into a disc that turns, and a good reading below the true speed is a lie.
    private static bool Follow(BoardOnBench rig, LineHost host, LastSeconds run)
    {
        run.See(host);
        double truth = Rpm(rig);
        Assert.False(run.Stands(0) && truth > 0, $"said to stand at {truth} rpm");
        Assert.True(run.Speed.Quality == Quality.Bad || host.Pulse != Configuration.StopPulse || run.Speed.Value >= truth * 0.99, $"{run.Speed.Value} rpm was read at {truth} rpm");
        return true;
    }

    private static double Rpm(BoardOnBench rig) => Math.Abs(rig.Bench.Truth.Speed) * RpmPerRadian;

    private static BoardOnBench Ready(out LineHost host)
    {
        BoardOnBench rig = new(Programs.Firmware, new BenchParameters(), seed: 1);
        host = new LineHost(rig, Configuration);
        host.Load();
        host.Run(100);
        host.Reset();
        return rig;
    }

    private static void Drive(BoardOnBench rig, LineHost host, int pulse, double faster)
    {
        host.Power = true;
        LineHost line = host;
        host.RunTo("the contactor closes", () => line.Status!.Bits.HasFlag(StatusBits.Contactor));
        host.RunTo("the controller arms", () => rig.Bench.Truth.ControllerArmed, 4000);
        host.Pulse = pulse;
        host.RunTo("it turns", () => Rpm(rig) > faster, 8000);
        // It is there before its first mark has passed.
        host.Run(500);
    }

    private static double Limit()
    {
        string file = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "board.rig.yaml"));
        return double.Parse(Standstill().Match(file).Groups[1].Value, CultureInfo.InvariantCulture);
    }

    [GeneratedRegex(@"^standstill: \{ below: (\d+) rpm, for: 1 s \}$", RegexOptions.Multiline)]
    private static partial Regex Standstill();
}
