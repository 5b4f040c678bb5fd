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
        Assert.All(Enum.GetValues<FaultKind>().Where(k => k is not (FaultKind.None or FaultKind.ProofAbsent)), kind => Assert.True(summary.DrivenWith(kind) > 0, $"{kind} never came while the motor was driven"));
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
    [InlineData(FaultKind.TachometerSilent, "tachometer-lost")]
    [InlineData(FaultKind.BoltLies, "lid-locked")]
    [InlineData(FaultKind.ProofVoided, "failsafe-confirmed")]
    [InlineData(FaultKind.BoardLies, "tachometer-lost")]
    public void A_fault_at_the_level_is_seen_by_the_interlock_that_is_there_for_it(FaultKind kind, string interlock)
    {
        CampaignResult result = new CampaignRun(Plant.With(kind, from: 6.0, to: 13.9, size: 0.95)).Run();
        Assert.Empty(result.Broken);
        Assert.Contains(interlock, Campaign.Interlocks.Where((_, i) => (result.Latched >> i & 1) != 0));
    }

    [Fact]
    public void A_tachometer_that_reads_nothing_from_the_spin_up_on_is_seen()
    {
        CampaignResult result = new CampaignRun(Plant.With(FaultKind.TachometerZero, from: 5.5, to: 13.9)).Run();
        Assert.Empty(result.Broken);
        Assert.Equal(1u << Campaign.Interlocks.ToList().IndexOf("tachometer-lost"), result.Latched);
    }

    // Each ends the run; what follows is a new session of the host, which is told of no proof before there is one.
    [Theory]
    [InlineData(FaultKind.BoardSwapped)]
    [InlineData(FaultKind.RigUnpowered)]
    [InlineData(FaultKind.ProofVoided)]
    public void After_what_voids_the_proof_the_level_comes_back_only_behind_a_new_one(FaultKind kind)
    {
        CampaignRun run = new(Plant.With(kind, from: 6.0, to: 7.0));
        CampaignResult result = run.Run();
        Assert.Empty(result.Broken);
        Assert.True(run.Proof.Made == 2, $"{run.Proof.Made} proofs were made");
    }

    [Fact]
    public void A_proof_whose_time_is_over_lets_the_run_go_on_and_the_next_session_not_begin()
    {
        Scenario expired = Plant.With(FaultKind.ProofExpired, from: 5.0, to: 5.1);
        CampaignRun alone = new(expired);
        Assert.Empty(alone.Run().Broken);
        CampaignRun restarted = new(expired with { Faults = [.. expired.Faults, new PlannedFault(FaultKind.HostRestart, 6, 6.5, 0, 0.5)] });
        Assert.Empty(restarted.Run().Broken);
        Assert.Equal((1, 2), (alone.Proof.Made, restarted.Proof.Made));
    }

    // The contactor is told open and stays closed, and its mirror says open: the signal alone stops.
    [Theory]
    [InlineData(0.1)]
    [InlineData(0.5)]
    [InlineData(0.9)]
    public void A_board_that_confirms_what_it_does_not_do_breaks_no_promise(double size) =>
        Assert.Empty(new CampaignRun(Plant.With(FaultKind.BoardLies, from: 2.0, to: 13.9, size)).Run().Broken);

    [Fact]
    public void A_rotor_that_a_killed_host_left_turning_is_not_reset_on_the_word_of_a_tachometer_that_reads_nothing()
    {
        Scenario scenario = Plant.With(FaultKind.HostRestart, from: 6.0, to: 6.2) with { Windage = 0 };
        CampaignRun seen = new(scenario);
        CampaignResult plain = seen.Run();
        CampaignResult blind = new CampaignRun(scenario with { Faults = [.. scenario.Faults, new PlannedFault(FaultKind.TachometerZero, 5.9, 13.9, BenchChannels.Speed, 0.5)] }).Run();
        Assert.Empty(plain.Broken);
        Assert.Empty(blind.Broken);
        // The longest coast-down is 5 s.
        Assert.True(blind.Length >= 11.2, $"{blind.Length} s, {plain.Length} s with a tachometer that reads");
    }

    // Found by seed 24185: the power alone spun it up, and a tachometer that had lost its mark before said that it stood.
    [Fact]
    public void A_rotor_that_a_shorted_controller_spun_up_in_arming_is_not_reset_on_the_word_of_a_dead_tachometer()
    {
        Scenario dead = Plant.With(FaultKind.TachometerZero, from: 0.5, to: 13.9);
        CampaignResult result = new CampaignRun(dead with { Faults = [.. dead.Faults, new PlannedFault(FaultKind.ControllerShorted, 1, 5, 0, 0.5)] }).Run();
        Assert.Empty(result.Broken);
        Assert.True(result.Trips > 0);
    }

    // Found by seed 328934: it began while the contactor opened late, against its own mirror, and less than a revolution of it was left to be seen.
    [Fact]
    public void Where_neither_signal_nor_power_stops_it_the_first_revolution_is_nobody_s_to_see()
    {
        CampaignResult result = new CampaignRun(Scenario.Of(328934)).Run();
        Assert.Empty(result.Broken);
    }

    [Fact]
    public void The_evidence_names_every_promise_fault_and_interlock()
    {
        Summary summary = Campaign.Run(first: 7, 3, _ => { });
        string page = Evidence.Page(summary, 7);
        Assert.Contains("-- 3 7 --evidence", page, StringComparison.Ordinal);
        Assert.Contains(summary.ToString(), page, StringComparison.Ordinal);
        Assert.All(Campaign.Promises, p => Assert.Contains("- " + p, page, StringComparison.Ordinal));
        Assert.All(Enum.GetValues<FaultKind>(), k => Assert.Contains($"| {k} | {summary.RunsWith(k)} | {summary.DrivenWith(k)} |", page, StringComparison.Ordinal));
        Assert.All(Campaign.Interlocks, i => Assert.Contains($"| `{i}` |", page, StringComparison.Ordinal));
    }
}
