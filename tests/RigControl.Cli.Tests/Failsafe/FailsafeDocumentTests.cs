using RigControl.Cli.Failsafe;
using RigControl.Cli.Output;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Tests.Failsafe;

/// <summary>What a verification prints when it has passed.</summary>
public class FailsafeDocumentTests
{
    private static readonly FailsafeProof Proof = new()
    {
        Run = "v", MadeAt = DateTimeOffset.UnixEpoch, ValidUntil = DateTimeOffset.UnixEpoch, Simulated = false, BoundTo = [],
        Provocations = [new("stop", 3, "stop-clear objects", "every sign", 0.011, 0.2, true, false)],
        NotProvoked = [new("pulses-cease", "it cannot"), new("board-limits", "none was lowered")],
    };

    [Trait("Requirement", "SAF-094")]
    [Fact]
    public void The_terminal_names_what_was_not_provoked_and_why_right_before_it_says_that_the_failsafe_is_proven()
    {
        string[] lines = [.. FailsafeDocument.Lines(Passed())];
        Assert.Equal(["  not provoked  pulses-cease: it cannot", "  not provoked  board-limits: none was lowered"], lines[^3..^1]);
        Assert.StartsWith("the failsafe is proven", lines[^1], StringComparison.Ordinal);
        Assert.Contains("\"why\": \"none was lowered\"", JsonText.Of(FailsafeDocument.Of(Passed())), StringComparison.Ordinal);
    }

    private static Verified Passed() => new("v", Proof, Proof.Provocations, new RunResult(RunOutcome.Completed, [], null, null));
}
