using RigControl.Cli.Loading;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Tests.Failsafe;

/// <summary>The simulated rig and the article that come with the program, verified as a whole.</summary>
public sealed class DemonstrationVerifiedTests(ITestOutputHelper output)
{
    [Fact]
    public void Somebody_who_takes_a_second_for_every_act_verifies_the_demonstration_s_rig_in_three_minutes() =>
        Assert.InRange(Took(VerificationScope.Whole), TimeSpan.Zero, TimeSpan.FromMinutes(3));

    [Fact]
    public void After_a_board_s_start_the_same_person_needs_not_much_more_than_half_a_minute() =>
        Assert.InRange(Took(VerificationScope.AfterRestart), TimeSpan.Zero, TimeSpan.FromSeconds(45));

    private TimeSpan Took(VerificationScope scope)
    {
        RigDocuments documents = new DocumentLoader(Installed.Plugins).ForLooking(Installed.Sample("simulated.rig.yaml"), Installed.Sample("disc-180.article.yaml"));
        using AssembledRig rig = new RigAssembler(Installed.Plugins, TimeProvider.System).Assemble(documents with { Verifies = scope }, 1);
        using NoRecord nothing = new();
        List<RigEvent> events = [];
        using RunSession session = new(rig, nothing, new ScriptedVerifier(rig, TimeSpan.FromSeconds(1)), Pace.Max, [], events.Add);
        Assert.Equal(RunOutcome.Completed, session.Run().Outcome);
        TimeSpan took = events[^1].At;
        output.WriteLine($"{rig.Documents.Procedure.Steps.Count} steps, {took.TotalSeconds:0.0} s of the rig's time");
        return took;
    }
}
