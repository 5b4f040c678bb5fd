namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>Runs drawn from seeds. A failure prints its seed and the scan that broke the rule.</summary>
public class RandomRunTests
{
    private const int Runs = 2400;
    private const int Scans = 800;

    [Fact]
    public void Whatever_operator_readings_and_interlocks_do_the_rules_hold()
    {
        Dictionary<RigState, int> reached = Enum.GetValues<RigState>().ToDictionary(s => s, _ => 0);
        int released = 0, repeated = 0;
        for (int seed = 1; seed <= Runs; seed++)
        {
            RandomRun run = new(seed, Scans);
            foreach ((string rule, Func<RandomRig, IReadOnlyList<Moment>, int?> check) in Invariants.All)
            {
                int? broken = check(run.Rig, run.Moments);
                Assert.True(broken is null, $"seed {seed}, scan {broken + 1}: {rule}");
            }

            foreach (RigState state in reached.Keys)
                reached[state] += run.Reached(state) ? 1 : 0;
            released += run.Moments.Any(m => m.Outputs.Unlocked) ? 1 : 0;
            repeated += run.Moments.Any(m => m is { Before: RigState.Idle, State: RigState.Arming } && !m.Accepted(CommandKind.Arm)) ? 1 : 0;
        }

        // Runs that never left safe-stop prove nothing.
        string counts = string.Join(", ", reached.Select(r => $"{r.Key} {r.Value}")) + $", released {released}, repeated {repeated}";
        TestContext.Current.TestOutputHelper?.WriteLine(counts);
        Assert.True(reached[RigState.Idle] >= 2000 && reached[RigState.Hold] >= 1000 && released >= 100 && repeated >= 100, counts);
    }

    [Fact]
    public void Once_faults_end_a_patient_operator_reaches_hold_again()
    {
        int tried = 0;
        for (int seed = 1; seed <= 400; seed++)
        {
            RandomRun run = new(seed, 600);
            bool needsRestart = Enumerable.Range(0, run.Rig.Interlocks.Length)
                .Any(i => (run.Moments[^1].Latched & (1u << i)) != 0 && run.Rig.Resets[i] == ResetPolicy.Restart);
            Assert.True(run.ReachesHoldOnceFaultsEnd(120) != needsRestart, $"seed {seed}");
            tried += needsRestart ? 0 : 1;
        }

        Assert.True(tried > 300, $"{tried} runs tried");
    }

    [Fact]
    public void A_seed_gives_the_same_run_again()
    {
        for (int seed = 1; seed <= 20; seed++)
        {
            RandomRun one = new(seed, 500), other = new(seed, 500);
            Assert.Equal(one.Moments.Select(m => (m.State, m.Outputs, m.Seen)), other.Moments.Select(m => (m.State, m.Outputs, m.Seen)));
        }
    }
}
