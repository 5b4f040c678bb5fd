using System.Diagnostics;
namespace RigControl.EndToEnd.Tests;

/// <summary>What holds a rotor, and what keeps people from it, as the program judges it before anything turns.</summary>
public sealed class GuardingTests : IDisposable
{
    private const string Disc = "procedures/disc-180.article.yaml", SpinUp = "procedures/enclosed-spin-up.yaml";

    private readonly Tool _tool = new();

    public void Dispose() => _tool.Dispose();

    [Theory]
    [InlineData("95 s", "accepted on that word")]
    [InlineData("80 s", "not accepted; use a guard that is locked until standstill")]
    public void A_check_says_whether_a_fixed_guard_is_accepted(string opening, string verdict)
    {
        Said said = _tool.Run("check", Rig(Fixed(opening)), Disc);
        Assert.Equal(0, said.ExitCode);
        Assert.Contains($"note: simulated-box with disc-180: opening the fixed guard takes {opening}, as declared (tried)", said.Output, StringComparison.Ordinal);
        Assert.Contains(verdict, said.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_check_says_plainly_that_a_lid_needs_a_lock_that_the_rig_does_not_have()
    {
        string rig = _tool.SimulatedRig("  - id: lid-locked\n    plugin: lid-locked\n", "");
        Assert.Contains("the lid must be locked until standstill, since nobody has declared under `guard:` what keeps people from the rotor, and the rig has no lock", _tool.Run("check", rig, Disc).Output, StringComparison.Ordinal);
        Assert.DoesNotContain("locked until standstill", _tool.Run("check", rig, "procedures/bench-motor.article.yaml").Output, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-083")]
    [Fact]
    public void Check_and_run_refuse_an_enclosure_into_which_a_person_can_get()
    {
        string rig = Rig("guard: { kind: enterable, source: \"a room\" }");
        foreach (Said said in new[] { _tool.Run("check", rig), _tool.Run("run", SpinUp, "--rig", rig, "--article", Disc, "--pace", "max") })
        {
            Assert.Equal(2, said.ExitCode);
            Assert.Contains("a person can get into the enclosure whole", said.Output + said.Errors, StringComparison.Ordinal);
        }

        Assert.Empty(_tool.Run("runs", "--json").Json.EnumerateArray());
    }

    [Trait("Requirement", "SAF-085")]
    [Theory]
    [InlineData("enclosure-rating", "more than the 150 J that simulated-box's enclosure is rated for")]
    [InlineData("guard", "opening the fixed guard takes 80 s")]
    public void A_real_rig_does_not_run_a_rotor_that_enclosure_or_guard_cannot_hold(string objection, string sentence)
    {
        string rig = RealRig(objection == "guard" ? Fixed("80 s") : "", objection == "guard" ? "400 J" : "150 J");
        Said said = Tool.End(_tool.Type("run", SpinUp, "--rig", rig, "--article", Disc, "--plugins", _tool.PluginsWith("RigControl.Misbehaving")));
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("refused: ", said.Output, StringComparison.Ordinal);
        Assert.Contains(sentence, said.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.DoesNotContain("it is verified first", said.Output, StringComparison.Ordinal);
        Assert.Equal("refused", _tool.Run("runs", "--json").Json[0].GetProperty("outcome").GetString());
        Assert.Contains(objection, _tool.Run("runs", "show", "last", "--json").Output, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-085")]
    [Fact]
    public void What_no_run_may_turn_is_not_turned_to_verify_its_failsafe_either()
    {
        Said said = Tool.End(_tool.Type("failsafe", "--rig", RealRig("", "150 J"), "--article", Disc, "--plugins", _tool.PluginsWith("RigControl.Misbehaving")));
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("more than the 150 J that simulated-box's enclosure is rated for", said.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Empty(_tool.Run("runs", "--json").Json.EnumerateArray());
    }

    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void With_the_rotor_said_to_be_off_the_motor_alone_may_be_verified_and_without_that_word_not()
    {
        string[] verify = ["failsafe", "--rotor-removed", "--rig", RealRig("", "150 J"), "--article", Disc, "--plugins", _tool.PluginsWith("RigControl.Misbehaving")];
        using Process asked = _tool.Type(verify);
        asked.StandardInput.Write("no\n");
        Said said = Tool.End(asked);
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("the rotor is not said to be off", said.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Empty(_tool.Run("runs", "--json").Json.EnumerateArray());
    }

    [Fact]
    public void A_simulated_rig_runs_whatever_its_enclosure_is_rated_for_and_its_rehearsal_is_refused()
    {
        string rig = _tool.SimulatedRig("rating: 400 J", "rating: 150 J");
        Assert.Equal(0, _tool.Run("run", SpinUp, "--rig", rig, "--article", Disc, "--pace", "max").ExitCode);
        Said said = _tool.Run("rehearse", SpinUp, "--rig", rig, "--article", Disc, "--samples", "20");
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("refused: a runaway stores up to", said.Errors, StringComparison.Ordinal);
    }

    private static string Fixed(string opening) => $"guard: {{ kind: fixed, source: tried, opening-time: {opening}, margin: 50 % }}";

    private string Rig(string guard) => _tool.SimulatedRig("devices:\n", $"{guard}\n\ndevices:\n");

    private string RealRig(string guard, string rating)
    {
        string real = "  - { id: other, plugin: misbehaving-device, options: { mischief: nothing, says-it-is-real: yes } }\n";
        string text = File.ReadAllText(_tool.SimulatedRig("devices:\n", $"{guard}\n\ndevices:\n{real}"));
        return _tool.Write("real.rig.yaml", text.Replace("rating: 400 J", $"rating: {rating}", StringComparison.Ordinal));
    }
}
