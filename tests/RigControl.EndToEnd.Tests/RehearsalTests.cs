namespace RigControl.EndToEnd.Tests;

/// <summary>Rehearse, run against the rehearsal, and be stopped where the run is not what was rehearsed.</summary>
public sealed class RehearsalTests : IDisposable
{
    private const string Short = """
        procedure: short-spin-up
        requires: [lid-closed, failsafe-confirmed]
        steps:
          - arm:
          - spin-up: { throttle: 50 %, ramp: 1 s, until: { channel: rotor.speed, steady-within: 2 %, for: 0.3 s }, timeout: 20 s }
          - hold: { for: 2 s }
          - coast-down: { timeout: 60 s }
        figures: [peak-speed, peak-current, coast-down-time]
        """;

    private const string Watched = "interlocks:\n  - id: as-rehearsed\n    plugin: rehearsed-band\n    options: { channel: rotor.speed, beyond: 10 % }\n";

    private readonly Tool _tool = new();

    private string Article => Path.Combine(Tool.Root, "procedures", "disc-180.article.yaml");

    private string Rehearsal => Path.Combine(_tool.Folder, "rehearsal.json");

    private Said Rehearse(string rig) => _tool.Run("rehearse", _tool.Write("short.yaml", Short), "--rig", rig, "--article", Article, "--samples", "40", "--out", Rehearsal, "--json");

    private Said Run(string rig, params string[] more) => _tool.Run(
        ["run", _tool.Write("short.yaml", Short), "--rig", rig, "--article", Article, "--operator", "scripted", "--pace", "max", "--json", .. more]);

    [Fact]
    public void A_run_as_rehearsed_is_done_and_stands_beside_its_prediction()
    {
        string rig = _tool.SimulatedRig("interlocks:\n", Watched);
        Said rehearsed = Rehearse(rig);
        Assert.Equal(0, rehearsed.ExitCode);
        Assert.Equal(3, rehearsed.Json.GetProperty("figures").GetArrayLength());
        Assert.Equal(0, Run(rig, "--rehearsal", Rehearsal).ExitCode);
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
        string shown = _tool.Run("runs", "show", "last").Output;
        Assert.Contains("rehearsed (95 %)", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("came out", shown, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-067")]
    [Fact]
    public void A_run_that_leaves_its_rehearsed_band_stops_before_the_plain_ceilings()
    {
        string rig = _tool.SimulatedRig("interlocks:\n", Watched);
        Rehearse(rig);
        // As if the machine had been declared half as fast as it is.
        Said said = _tool.Run("run", _tool.Write("short.yaml", Short), "--rig", rig, "--article", Article, "--operator", "scripted", "--pace", "max", "--json", "--rehearsal", Tampered());
        Assert.Equal((4, "as-rehearsed"), (said.ExitCode, said.Json.GetProperty("trips")[0].GetProperty("interlock").GetString()));
        Assert.Contains("that the rehearsal allows here", said.Json.GetProperty("trips")[0].GetProperty("reason").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_rig_that_wants_a_rehearsal_is_not_armed_without_one()
    {
        Said said = Run(_tool.SimulatedRig("interlocks:\n", Watched));
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("rotor.speed has no rehearsal for this run; rehearse it and give the file with --rehearsal", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_rehearsal_of_other_files_or_of_none_is_bad_input()
    {
        string rig = _tool.SimulatedRig("interlocks:\n", Watched);
        Rehearse(rig);
        File.AppendAllText(rig, "# changed\n");
        Assert.Equal((2, true), (Run(rig, "--rehearsal", Rehearsal).ExitCode, Run(rig, "--rehearsal", Rehearsal).Errors.Contains("is a rehearsal of other files than these", StringComparison.Ordinal)));
        foreach (string none in (string[])["{}", "[1]", "no json", "{\"of\": 3}"])
        {
            Said said = Run(rig, "--rehearsal", _tool.Write("none.json", none));
            Assert.Equal(2, said.ExitCode);
            Assert.NotEmpty(said.Errors);
        }

        Assert.Equal(2, Run(rig, "--rehearsal", Path.Combine(_tool.Folder, "absent.json")).ExitCode);
    }

    [Fact]
    public void An_enclosure_that_is_too_weak_refuses_with_3_before_anything_turns()
    {
        Said said = Rehearse(_tool.SimulatedRig("rating: 400 J", "rating: 10 J"));
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("refused: the rotor will store up to ", said.Errors, StringComparison.Ordinal);
        Assert.Contains("refused: a runaway stores up to ", said.Errors, StringComparison.Ordinal);
        Assert.Equal(2, said.Json.GetProperty("refusals").GetArrayLength());
    }

    public void Dispose() => _tool.Dispose();

    // The same files' rehearsal of a machine that turns half as fast: what a wrong declaration would have given.
    private string Tampered()
    {
        System.Text.Json.Nodes.JsonNode rehearsal = System.Text.Json.Nodes.JsonNode.Parse(File.ReadAllText(Rehearsal))!;
        foreach (var step in rehearsal["bands"]!.AsArray().Single(b => (string?)b!["channel"] == "rotor.speed")!["steps"]!.AsArray())
        foreach (string end in (string[])["low", "high"])
        {
            var values = step![end]!.AsArray();
            for (int i = 0; i < values.Count; i++)
                values[i] = (double)values[i]! / 2;
        }

        return _tool.Write("tampered.json", rehearsal.ToJsonString());
    }
}
