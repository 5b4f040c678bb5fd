using System.Text.Json;
using RigControl.Cli.Failsafe;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Tests.Failsafe;

/// <summary>A verification from files to proof and to what is told of it, on the rig and the article that come with the program.</summary>
public sealed class VerifyOnceTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-test-").FullName;
    private readonly LogbookFile _book;
    private readonly ProofShelf _shelf;

    public VerifyOnceTests()
    {
        _book = LogbookFile.Open(Path.Combine(_folder, "logbook.sqlite"));
        _shelf = new ProofShelf(_book, Path.Combine(_folder, "key"));
    }

    public void Dispose()
    {
        _book.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    // A run takes this way where the latest proof stands but for a board's start; whether it does is judged by the proof.
    [Trait("Requirement", "SAF-079")]
    [Trait("Requirement", "SAF-096")]
    [Fact]
    public void After_a_board_s_start_the_pack_is_asked_for_and_the_proof_is_good_again_for_as_long_as_it_was()
    {
        FailsafeProof whole = Verify().Proof!;
        Verified brief = Verify(whole);
        Assert.Equal(["power-off", "pack-disconnected", "pulse-lid", "pulse-stop", "pulse-silence"], brief.Results.Select(r => r.Name));
        Assert.Equal(whole.ValidUntil, brief.Proof!.ValidUntil);
        ProvocationResult pack = brief.Proof.Provocations.Single(p => p.Name == "pack-disconnected");
        Assert.Equal(("it is off", true, true), (pack.Seen, pack.Passed, pack.OnWord));
        Assert.Contains(FailsafeDocument.Lines(brief), l => l.Contains("pack-disconnected", StringComparison.Ordinal) && l.EndsWith("it is off, on the operator's word", StringComparison.Ordinal));
        // What only the whole one shows is kept from it.
        Assert.Contains(brief.Proof.Provocations, p => p.Name == "power-cut");
        Assert.Equal(brief.Run, _shelf.Latest("simulated-box", "disc-180", out string? since)!.Run);
        Assert.Null(since);
        Assert.Null(brief.Ceiling);
    }

    [Trait("Requirement", "SAF-095")]
    [Fact]
    public void The_result_tells_what_the_rotor_stores_at_the_ceiling_and_how_long_the_power_took()
    {
        Verified whole = Verify();
        string[] lines = [.. FailsafeDocument.Lines(whole)];
        // 2500 rpm are 261.8 rad/s, and half of 0.00018225 kg.m2 times its square is 6.25 J.
        Assert.Equal("the ceiling is 12 % throttle and 2500 rpm: the rotor stores 6.25 J there, with its declared 0.00018225 kg.m2; see that what stands around it holds that", lines[0]);
        Assert.Equal(5, lines.Count(l => System.Text.RegularExpressions.Regex.IsMatch(l, "; power gone after [0-9]+ of 200 ms")));
        JsonElement told = JsonSerializer.SerializeToElement(FailsafeDocument.Of(whole));
        JsonElement stored = told.GetProperty("ceiling").GetProperty("storedEnergy");
        Assert.Equal((6.2456, "J"), (Math.Round(stored.GetProperty("value").GetDouble(), 4), stored.GetProperty("unit").GetString()));
        JsonElement cut = told.GetProperty("provocations").EnumerateArray().Single(p => p.GetProperty("name").GetString() == "over-speed");
        Assert.Equal(0.2, cut.GetProperty("powerAllowed").GetDouble());
        Assert.InRange(cut.GetProperty("powerGone").GetDouble(), 0.001, 0.2);
    }

    private Verified Verify(FailsafeProof? renewed = null)
    {
        RunRequest request = new(null, At("simulated.rig.yaml"), At("disc-180.article.yaml"), _book.Path, null, true, Pace.Max, null, "scripted", false, null);
        Verified verified = new VerifyOnce(request, Installed.Plugins, _book, _shelf).Run(TimeSpan.FromHours(4), renewed);
        Assert.True(verified.Proof is not null, string.Join('\n', FailsafeDocument.Lines(verified)));
        return verified;
    }

    private static string At(string name) => Path.Combine(Installed.Root, "procedures", name);
}
