namespace RigControl.Kernel.Tests;

/// <summary>
/// Every way to stop held against the stop categories as published. A category is told by the power alone: while the rotor slows, and
/// once it stands. The article here keeps the power for 0.2 s; the rotor stands after less, unless a test says otherwise.
/// </summary>
public class StopCategoryTests
{
    private const double Full = 3000;
    private static readonly TimeSpan RunsDownIn = TimeSpan.FromSeconds(0.15);

    private readonly ScriptedInterlock _interlock = new();

    [Trait("Requirement", "SAF-022")]
    [Theory]
    [InlineData("an interlock that cuts the power", 0)]
    [InlineData("an interlock that throws", 0)]
    [InlineData("the operator", 0)]
    [InlineData("the network", 0)]
    [InlineData("the host", 0)]
    [InlineData("a clock that goes back", 0)]
    [InlineData("scans that come late", 0)]
    [InlineData("an interlock that stops the output", 1)]
    [InlineData("a step that does not end", 1)]
    public void Every_stop_is_of_the_category_that_is_said_and_of_one_that_an_emergency_stop_may_be(string by, int category)
    {
        int? seen = Seen(Stopped(by), RunsDownIn);
        Assert.Equal(category, seen);
        Assert.True(StopReference.IsForEmergencies(category));
    }

    // The published category keeps the power until standstill; here it ends at a declared time, which a stop that fails must not outlast.
    [Trait("Requirement", "SAF-022")]
    [Fact]
    public void A_rotor_that_does_not_come_to_rest_in_the_stopping_time_loses_its_power_all_the_same()
    {
        KernelBench bench = Stopped("an interlock that stops the output");
        TimeSpan stopped = bench.Record.Now;
        bench.ScanUntil(() => !bench.Outputs.Power);
        Assert.Equal(TimeSpan.FromSeconds(0.2), bench.Record.Now - stopped);
        Assert.Null(Seen(Stopped("an interlock that stops the output"), TimeSpan.FromSeconds(2)));
    }

    [Fact]
    public void The_categories_as_published_are_told_apart_and_the_last_is_for_no_emergency()
    {
        Assert.Equal([0, 1, 2], [StopReference.CategoryOf(false, false), StopReference.CategoryOf(true, false), StopReference.CategoryOf(true, true)]);
        Assert.Null(StopReference.CategoryOf(null, false));
        Assert.Equal([true, true, false], [StopReference.IsForEmergencies(0), StopReference.IsForEmergencies(1), StopReference.IsForEmergencies(2)]);
    }

    // In the scan that stopped; the rotor still has all its speed.
    private KernelBench Stopped(string by)
    {
        RigBuilder rig = new RigBuilder().With("interlock", _interlock);
        if (by == "a step that does not end")
            rig.Does(Steps.Arm(), Steps.SpinUp(timeout: 1, until: Steps.Above(ChannelNames.RotorSpeed, 9000)), Steps.CoastDown());
        _interlock.Action = DemandAction.Proceed;
        KernelBench bench = new KernelBench(rig).ToSpinUp().Read(ChannelNames.RotorSpeed, Full).ScanFor(0.1);
        Assert.True(bench.Outputs is { Power: true, Drives: true });
        Stop(bench, by);
        Assert.Equal(RigState.SafeStop, bench.Rig);
        return bench;
    }

    private void Stop(KernelBench bench, string by)
    {
        switch (by)
        {
            case "an interlock that cuts the power": _interlock.Action = DemandAction.CutPower; bench.Scan(); break;
            case "an interlock that stops the output": _interlock.Action = DemandAction.StopOutput; bench.Scan(); break;
            case "an interlock that throws": _interlock.Throws = true; bench.Scan(); break;
            case "the operator": bench.Give(CommandKind.Stop); break;
            case "the network": bench.Give(CommandKind.Stop, CommandSource.Network); break;
            case "the host": bench.Give(CommandKind.Stop, CommandSource.Host); break;
            case "a clock that goes back": bench.Now -= TimeSpan.FromSeconds(0.02); bench.Scan(); break;
            case "a step that does not end": bench.ScanUntil(RigState.SafeStop); break;
            case "scans that come late": bench.Now += TimeSpan.FromSeconds(0.5); bench.Scan(); break;
            default: Assert.Fail($"nothing here stops by {by}"); break;
        }
    }

    // What the power did from the scan of the stop: on throughout, off throughout, or neither, while the rotor slowed; and long after.
    private static int? Seen(KernelBench bench, TimeSpan runsDownIn)
    {
        List<bool> slowing = [bench.Outputs.Power];
        for (TimeSpan stopped = bench.Record.Now; bench.Now - stopped < runsDownIn; slowing.Add(bench.Outputs.Power))
            bench.Read(ChannelNames.RotorSpeed, Full * (1 - ((bench.Now - stopped) / runsDownIn))).Scan();
        bench.Read(ChannelNames.RotorSpeed, 0).ScanFor(10);
        bool? whileSlowing = slowing.TrueForAll(p => p) ? true : slowing.Exists(p => p) ? null : false;
        return StopReference.CategoryOf(whileSlowing, bench.Outputs.Power);
    }
}
