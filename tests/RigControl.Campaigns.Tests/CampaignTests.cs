namespace RigControl.Campaigns.Tests;

/// <summary>Many seeded, faulted runs.</summary>
public class CampaignTests(ITestOutputHelper output)
{
    /// <summary>Seeds in the ordinary test run; a million have a command of their own.</summary>
    private const int Seeds = 1500;

    [Trait("Requirement", "SAF-025")]
    [Fact]
    public void Whatever_goes_wrong_every_promise_holds()
    {
        List<string> broken = [];
        Summary summary = Campaign.Run(first: 1, Seeds, sentence =>
        {
            lock (broken)
                broken.Add(sentence);
        });
        output.WriteLine(summary.ToString());
        Assert.Empty(broken);
        Assert.True(summary.Counted > Seeds * 9 / 10, $"too few runs ever left safe-stop: {summary}");
        Assert.True(summary.Held > Seeds / 2, $"too few runs ever held a level: {summary}");
        Assert.True(summary.Trips > Seeds / 2, $"too few faults ever tripped: {summary}");
        Assert.All(Enum.GetValues<FaultKind>(), kind => Assert.True(summary.RunsWith(kind) > 10, $"{kind} hardly ever came up"));
        Assert.All(Enumerable.Range(0, Campaign.Interlocks.Count), i => Assert.True(summary.LatchedBy(i) > 0, $"{Campaign.Interlocks[i]} never latched"));
    }

    [Theory]
    [InlineData(42)]
    [InlineData(258)]
    public void The_same_seed_gives_the_same_run(ulong seed)
    {
        CampaignResult once = new CampaignRun(Scenario.Of(seed)).Run();
        CampaignResult again = new CampaignRun(Scenario.Of(seed)).Run();
        Assert.Equal((once.Trips, once.Held, once.Latched, once.Length), (again.Trips, again.Held, again.Latched, again.Length));
        Assert.Equal(once.Broken, again.Broken);
    }

    [Fact]
    public void A_run_without_faults_holds_its_level_and_breaks_nothing()
    {
        CampaignResult result = new CampaignRun(Plant.Quiet).Run();
        Assert.True(result.Held);
        Assert.Equal((0, 0u), (result.Trips, result.Latched));
        Assert.Empty(result.Broken);
    }

    [Fact]
    public void A_run_through_the_gate_reaches_its_level_and_breaks_nothing()
    {
        CampaignResult result = new CampaignRun(Plant.Quiet with { Gated = true }).Run();
        Assert.True(result.Held);
        Assert.Equal((0, 0u), (result.Trips, result.Latched));
        Assert.Empty(result.Broken);
    }

    [Fact]
    public void A_radio_lost_with_the_gate_open_trips_and_without_a_gate_does_not()
    {
        Scenario lost = Plant.With(FaultKind.RadioLost, from: 6.0, to: 13.9);
        CampaignResult gated = new CampaignRun(lost with { Gated = true }).Run();
        Assert.Empty(gated.Broken);
        Assert.True(gated.Trips > 0);
        Assert.Equal(0, new CampaignRun(lost).Run().Trips);
    }

    // What a fault is to show, it shows: otherwise a checker that is content has seen nothing.
    [Theory]
    [InlineData(FaultKind.LidForced, "lid-closed")]
    [InlineData(FaultKind.LidContactStuck, "lid-closed")]
    [InlineData(FaultKind.StopPressed, "stop-clear")]
    [InlineData(FaultKind.ControllerRunaway, "over-speed")]
    [InlineData(FaultKind.ControllerShorted, "over-current")]
    [InlineData(FaultKind.TachometerDoubled, "over-speed")]
    [InlineData(FaultKind.ContactorDead, "power-follows")]
    [InlineData(FaultKind.BoardRestart, "output-follows")]
    [InlineData(FaultKind.OperatorLeaves, "operator-present")]
    [InlineData(FaultKind.SinkSlow, "recorder-behind")]
    [InlineData(FaultKind.ScansLate, "scan-late")]
    [InlineData(FaultKind.MotorHeated, "temperature-ceiling")]
    public void A_fault_at_the_level_is_seen_by_the_interlock_that_is_there_for_it(FaultKind kind, string interlock)
    {
        CampaignResult result = new CampaignRun(Plant.With(kind, from: 6.0, to: 13.9, size: 0.95)).Run();
        Assert.Empty(result.Broken);
        Assert.NotEqual(0u, (result.Latched >> Campaign.Interlocks.ToList().IndexOf(interlock)) & 1);
    }

    [Fact]
    public void The_evidence_names_every_promise_fault_and_interlock()
    {
        Summary summary = Campaign.Run(first: 7, 3, _ => { });
        string page = Evidence.Page(summary, 7);
        Assert.Contains("-- 3 7 --evidence", page, StringComparison.Ordinal);
        Assert.Contains(summary.ToString(), page, StringComparison.Ordinal);
        Assert.All(Campaign.Promises, p => Assert.Contains("- " + p, page, StringComparison.Ordinal));
        Assert.All(Enum.GetValues<FaultKind>(), k => Assert.Contains($"| {k} | {summary.RunsWith(k)} |", page, StringComparison.Ordinal));
        Assert.All(Campaign.Interlocks, i => Assert.Contains($"| `{i}` |", page, StringComparison.Ordinal));
    }
}
