using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>The record as its user meets it: runs, typed readings, comparison, report, replay with a change.</summary>
public sealed class RecordTests : IDisposable
{
    private readonly Tool _tool = new();

    public void Dispose() => _tool.Dispose();

    [Fact]
    public void Notes_tags_parts_and_files_stay_with_a_run_and_show()
    {
        string run = _tool.Enter("peak-speed=8912,8920 rpm");
        string clip = _tool.Write("clip.mp4", "frames");
        Assert.Equal(0, _tool.Run("runs", "note", run, "it hums").ExitCode);
        Assert.Equal(0, _tool.Run("runs", "incident", run, "smoke", "--at", "3.5").ExitCode);
        Assert.Equal(0, _tool.Run("runs", "part", run, "belt", "the longer one").ExitCode);
        Assert.Equal(0, _tool.Run("runs", "tag", run, "new-belt", "cold").ExitCode);
        Assert.Equal(0, _tool.Run("runs", "attach", run, clip).ExitCode);
        Assert.Equal(2, _tool.Run("runs", "attach", run, clip + "x").ExitCode);
        Assert.Equal(2, _tool.Run("runs", "tag", run, "two words").ExitCode);
        JsonElement shown = _tool.Run("runs", "show", run, "--json").Json;
        Assert.Equal(["cold", "new-belt"], shown.GetProperty("tags").EnumerateArray().Select(t => t.GetString()!));
        Assert.Equal(["it hums", "smoke", "the longer one"], shown.GetProperty("remarks").EnumerateArray().Select(r => r.GetProperty("text").GetString()!));
        Assert.Equal(clip, shown.GetProperty("files")[0].GetProperty("path").GetString());
    }

    [Fact]
    public void Typed_readings_are_a_real_run_with_their_step_as_uncertainty()
    {
        JsonElement run = _tool.Run("enter", "mass=6.5 oz +-0.1", "--article", "disc-180", "--json").Json;
        Assert.False(run.GetProperty("simulated").GetBoolean());
        JsonElement figure = run.GetProperty("figures")[0];
        // An ounce is 28.349523125 g by definition (international avoirdupois ounce, from memory).
        Assert.Equal(6.5 * 28.349523125, figure.GetProperty("value").GetDouble(), 1e-6);
        Assert.Equal(0.1 * 28.349523125 / Math.Sqrt(12), figure.GetProperty("standardUncertainty").GetDouble(), 1e-6);
        Assert.Equal("g", figure.GetProperty("unit").GetString());
        Assert.Equal("step of the instrument", figure.GetProperty("budget")[0].GetProperty("name").GetString());
    }

    [Fact]
    public void A_runs_figures_keep_what_their_uncertainty_is_made_of_in_record_text_report_and_table()
    {
        string run = _tool.Simulate().Json.GetProperty("run").GetString()!;
        JsonElement figure = _tool.Run("runs", "show", run, "--json").Json.GetProperty("figures").EnumerateArray().First(f => f.GetProperty("name").GetString() == "spin-up-time");
        JsonElement[] budget = [.. figure.GetProperty("budget").EnumerateArray()];
        Assert.True(budget.Length > 1);
        Assert.Equal(1, budget.Sum(b => b.GetProperty("share").GetDouble()), 1e-9);
        Assert.Equal(budget.OrderByDescending(b => b.GetProperty("share").GetDouble()), budget);
        double sum = Math.Sqrt(budget.Sum(b => Math.Pow(b.GetProperty("standardUncertainty").GetDouble(), 2)));
        Assert.Equal(figure.GetProperty("standardUncertainty").GetDouble(), sum, 1e-9);
        string most = $"most of it from {budget[0].GetProperty("name").GetString()}";
        Assert.Contains(most, _tool.Run("runs", "show", run).Output, StringComparison.Ordinal);
        Assert.Contains(most, _tool.Run("report", run, "--output", "-").Output, StringComparison.Ordinal);
        Assert.Contains(budget[0].GetProperty("name").GetString()!, _tool.Run("runs", "figures").Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("mass=6 stone", "not a known unit")]
    [InlineData("mass 6 g", "FIGURE=VALUE")]
    [InlineData("mass=six g", "FIGURE=VALUE")]
    [InlineData("mass=6,--7 g", "not a number")]
    [InlineData("mass=6 g +-0", "step is above 0")]
    public void A_reading_that_cannot_be_read_is_a_sentence_and_makes_no_run(string reading, string sentence)
    {
        Said said = _tool.Run("enter", reading, "--article", "disc-180");
        Assert.Equal(2, said.ExitCode);
        Assert.Contains(sentence, said.Errors, StringComparison.Ordinal);
        Assert.Empty(_tool.Run("runs", "--json").Json.EnumerateArray());
    }

    [Fact]
    public void A_run_keeps_its_clock_and_every_option_of_its_devices()
    {
        JsonElement provenance = _tool.Simulate().Json.GetProperty("provenance");
        Assert.StartsWith("virtual", provenance.GetProperty("clock").GetString(), StringComparison.Ordinal);
        JsonElement bench = provenance.GetProperty("devices").EnumerateArray().First(d => d.GetProperty("id").GetString() == "bench");
        // The first is written in the rig file, the second is the plugin's own.
        Assert.Equal("20", bench.GetProperty("options").GetProperty("ambient").GetString());
        Assert.Equal("100", bench.GetProperty("options").GetProperty("state-of-charge").GetString());
        Assert.Equal(64, provenance.GetProperty("plugins")[0].GetProperty("digest").GetString()!.Length);
    }

    [Fact]
    public void A_verification_shows_its_proof_in_text_json_and_report_and_replays_with_other_plugins_too()
    {
        Assert.Equal(0, _tool.Run("failsafe", "--pace", "max").ExitCode);
        Said shown = _tool.Run("runs", "show", "last");
        Assert.Contains("The failsafe was verified; the proof is good until", shown.Output, StringComparison.Ordinal);
        Assert.Contains("which proves nothing of a real one", shown.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("what was provoked was seen", shown.Output, StringComparison.Ordinal);
        JsonElement proof = _tool.Run("runs", "show", "last", "--json").Json.GetProperty("proof");
        Assert.True(proof.GetProperty("simulated").GetBoolean());
        Assert.All(proof.GetProperty("provocations").EnumerateArray(), p => Assert.True(p.GetProperty("passed").GetBoolean()));
        string page = _tool.Run("report", "last", "--output", "-").Output;
        Assert.Contains("verdict good\">The failsafe was verified", page, StringComparison.Ordinal);
        Assert.Contains("pulse-silence", page, StringComparison.Ordinal);
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);

        string plugins = _tool.PluginsWith("RigControl.Misbehaving");
        File.WriteAllText(Path.Combine(plugins, "RigControl.Interlocks", "notes.txt"), "a later build");
        Said other = _tool.Run("replay", "last", "--plugins", plugins);
        Assert.Equal(6, other.ExitCode);
        Assert.Contains("the sequence equal under the recorded demands", other.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_report_of_a_run_that_was_refused_says_first_why()
    {
        string run = _tool.Run("run", "--rig", _tool.SimulatedRig("ambient: 20 degC", "ambient: 20 degC, lid-forced-at: 0.5 s"), "--article", "procedures/disc-180.article.yaml", "procedures/enclosed-spin-up.yaml", "--pace", "max", "--json").Json.GetProperty("run").GetString()!;
        Assert.All(_tool.Run("runs", "show", run, "--json").Json.GetProperty("figures").EnumerateArray(), f => Assert.True(f.GetProperty("value").ValueKind == JsonValueKind.Null || f.GetProperty("name").GetString() == "charge-used"));
        Said said = _tool.Run("report", "last", "--output", "-");
        Assert.Equal(0, said.ExitCode);
        Assert.Contains("verdict bad\">", said.Output, StringComparison.Ordinal);
        Assert.Contains("no peak-current: the output never rose", said.Output, StringComparison.Ordinal);
        Assert.Contains("the lid is open", said.Output[..said.Output.IndexOf("<h2>", StringComparison.Ordinal)], StringComparison.Ordinal);
        Assert.DoesNotContain("Each repeat", said.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_recorded_run_is_reported_plotted_exported_imported_backed_up_verified_and_pruned()
    {
        string run = _tool.Simulate().Json.GetProperty("run").GetString()!;
        (string page, string picture, string drawing, string trace, string parquet, string copy) = (At("r.html"), At("p.png"), At("p.svg"), At("t.csv"), At("t.parquet"), At("copy.sqlite"));
        Assert.Equal(0, _tool.Run("report", run, "--output", page).ExitCode);
        string text = File.ReadAllText(page);
        Assert.Contains("SIMULATED", text, StringComparison.Ordinal);
        Assert.Contains("over-speed", text, StringComparison.Ordinal);
        Assert.Contains("<svg", text, StringComparison.Ordinal);
        Assert.Equal(0, _tool.Run("plot", run, "--output", picture).ExitCode);
        Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], File.ReadAllBytes(picture)[..4]);
        Assert.Equal(0, _tool.Run("plot", run, "--channels", "rotor.speed,battery.current", "--output", drawing).ExitCode);
        Assert.Equal(2, _tool.Run("plot", run, "--channels", "rotor.sped", "--output", drawing).ExitCode);
        Assert.Equal(0, _tool.Run("runs", "export", run, "--output", trace).ExitCode);
        Assert.Equal(0, _tool.Run("runs", "export", run, "--format", "parquet", "--output", parquet).ExitCode);
        Assert.Equal("PAR1", System.Text.Encoding.ASCII.GetString(File.ReadAllBytes(parquet)[..4]));
        JsonElement imported = _tool.Run("import", trace, "--article", Path.Combine(Tool.Root, "procedures", "disc-180.article.yaml"), "--simulated", "--json").Json;
        Assert.Equal(Steady(_tool.Run("runs", "show", run, "--json").Json), Steady(imported), 5.0);
        Assert.Equal(0, _tool.Run("logbook", "backup", copy).ExitCode);
        Assert.Equal(2, _tool.Run("logbook", "backup", copy).ExitCode);
        Assert.Equal(0, _tool.Run("logbook", "verify", "--logbook", copy).ExitCode);
        Assert.Equal(3, _tool.Run("logbook", "prune", run).ExitCode);
        Assert.Equal(0, _tool.Run("logbook", "prune", run, "--yes").ExitCode);
        Assert.Equal(2, _tool.Run("replay", run).ExitCode);
        Assert.Equal(0, _tool.Run("replay", run, "--logbook", copy).ExitCode);
    }

    [Fact]
    public void A_run_and_the_table_of_figures_read_back_from_json_as_they_show_and_as_they_stand_in_csv()
    {
        string run = _tool.Simulate().Json.GetProperty("run").GetString()!;
        JsonElement whole = _tool.Run("runs", "export", run, "--format", "json").Json, shown = _tool.Run("runs", "show", run, "--json").Json;
        Assert.True(JsonElement.DeepEquals(shown, whole.GetProperty("run")));
        string[] lines = _tool.Run("runs", "export", run).Output.TrimEnd().Split("\r\n");
        JsonElement[] trace = [.. whole.GetProperty("trace").EnumerateArray()];
        Assert.Equal(lines[0], string.Join(',', trace.Select(c => $"{c.GetProperty("channel").GetString()} [{c.GetProperty("unit").GetString()}]").Prepend("time [s]")));
        string[][] cells = [.. lines[1..].Select(l => l.Split(','))];
        for (int i = 0; i < trace.Length; i++)
        {
            Assert.Equal(cells.Where(c => c[i + 1].Length > 0).Select(c => Number(c[0])), trace[i].GetProperty("times").EnumerateArray().Select(t => t.GetDouble()));
            Assert.Equal(cells.Where(c => c[i + 1].Length > 0).Select(c => Number(c[i + 1])), trace[i].GetProperty("values").EnumerateArray().Select(v => v.GetDouble()));
        }

        JsonElement[] table = [.. _tool.Run("runs", "figures", "--format", "json").Json.EnumerateArray()];
        Assert.All(table, row => Assert.Equal(run, row.GetProperty("run").GetString()));
        Assert.Equal(shown.GetProperty("figures").GetArrayLength(), table.Length);
        Assert.All(table.Zip(shown.GetProperty("figures").EnumerateArray()), pair => Assert.True(JsonElement.DeepEquals(pair.Second, pair.First.GetProperty("figure"))));
    }

    [Fact]
    public void Pruning_asks_at_a_terminal_and_only_yes_takes_anything_away()
    {
        string run = _tool.Simulate().Json.GetProperty("run").GetString()!;
        foreach ((string typed, int exit, int replays) in new[] { ("no", 3, 0), ("", 3, 0), ("yes", 0, 2) })
        {
            using System.Diagnostics.Process asked = _tool.Type("logbook", "prune", run);
            asked.StandardInput.Write(typed + "\r");
            asked.StandardInput.Flush();
            string said = asked.StandardOutput.ReadToEnd();
            asked.WaitForExit();
            Assert.Contains("of 1 runs away for good?", said, StringComparison.Ordinal);
            Assert.Equal(exit, asked.ExitCode);
            Assert.Equal(replays, _tool.Run("replay", run).ExitCode);
        }

        Assert.NotEmpty(_tool.Run("runs", "show", run, "--json").Json.GetProperty("figures").EnumerateArray());
    }

    [Fact]
    public void A_replay_with_a_lower_limit_says_when_the_two_part_and_one_with_a_limit_that_was_never_reached_that_they_never_do()
    {
        string run = _tool.Simulate().Json.GetProperty("run").GetString()!;
        Said lower = _tool.Run("replay", run, "--with", _tool.SimulatedRig("limit: 10000 rpm", "limit: 5000 rpm"), "--json");
        Assert.Equal(6, lower.ExitCode);
        Assert.Contains("over-speed would have tripped at", lower.Json.GetProperty("difference").GetString(), StringComparison.Ordinal);
        Assert.InRange(lower.Json.GetProperty("at").GetDouble(), 1, 20);
        Said other = _tool.Run("replay", run, "--with", _tool.SimulatedRig("limit: 10000 rpm", "limit: 9000 rpm"));
        Assert.Equal(0, other.ExitCode);
        Assert.Contains("nothing that the rig was told", other.Output, StringComparison.Ordinal);
        // The rotor of the article allows 10000 rpm.
        Assert.Equal(2, _tool.Run("replay", run, "--with", _tool.SimulatedRig("limit: 10000 rpm", "limit: 12000 rpm")).ExitCode);
        Assert.Equal(2, _tool.Run("replay", run, "--with", _tool.Write("shopping.yaml", "milk: 1")).ExitCode);
    }

    [Fact]
    public void With_other_plugins_the_sequence_is_replayed_from_recorded_demands_and_exits_with_6_and_on_request_with_those_of_now()
    {
        string run = _tool.Simulate().Json.GetProperty("run").GetString()!;
        string plugins = _tool.PluginsWith("RigControl.Misbehaving");
        JsonElement same = _tool.Run("replay", run, "--json").Json;
        Assert.Equal("evaluated", same.GetProperty("demands").GetString());
        // Another file in the plugin's folder is another plugin, whatever it does.
        File.WriteAllText(Path.Combine(plugins, "RigControl.Interlocks", "notes.txt"), "a later build");
        Said other = _tool.Run("replay", run, "--plugins", plugins);
        Assert.Equal(6, other.ExitCode);
        Assert.Contains("RigControl.Interlocks is not the plugin that the run was made with", other.Errors, StringComparison.Ordinal);
        Assert.Contains("replayed from the demands that were recorded", other.Errors, StringComparison.Ordinal);
        Assert.Contains("the sequence equal under the recorded demands", other.Output, StringComparison.Ordinal);
        JsonElement json = _tool.Run("replay", run, "--plugins", plugins, "--json").Json;
        Assert.Equal("recorded", json.GetProperty("demands").GetString());
        Assert.Equal(same.GetProperty("scans").GetInt64(), json.GetProperty("scans").GetInt64());
        Said now = _tool.Run("replay", run, "--plugins", plugins, "--with", "plugins");
        Assert.Equal(6, now.ExitCode);
        Assert.Contains("nothing that the rig was told would have been otherwise", now.Output, StringComparison.Ordinal);
        Assert.Equal(0, _tool.Run("replay", run, "--with", "plugins").ExitCode);
    }

    [Fact]
    public void A_clip_is_lined_up_with_the_record_by_the_light_that_came_on_in_the_run()
    {
        string procedure = _tool.Write("marked.yaml", ToolRuns.Changed("enclosed-spin-up.yaml", "- hold: { for: 5 s }", "- hold: { for: 5 s, mark: yes }"));
        string run = _tool.Record(procedure, Path.Combine("procedures", "disc-180.article.yaml"));
        JsonElement shown = _tool.Run("runs", "show", run, "--json").Json;
        // The light comes on in the scan in which the step is entered, in each of three repeats.
        double[] holds = [.. shown.GetProperty("states").EnumerateArray().Where(s => s.GetProperty("state").GetString() == "Hold").Select(s => s.GetProperty("at").GetDouble())];
        Assert.Equal(3, holds.Length);
        double[] lights = [.. _tool.Run("marker", run, "--json").Json.GetProperty("lights").EnumerateArray().Select(l => l.GetDouble())];
        Assert.Equal(holds, lights.Select(l => Math.Round(l, 6)));
        Assert.Contains("2: on at ", _tool.Run("marker", run).Output, StringComparison.Ordinal);

        string clip = _tool.Write("clip.mp4", "frames"), slow = _tool.Write("slow.mp4", "more frames");
        JsonElement first = _tool.Run("marker", run, clip, "--at", "1.5", "--json").Json;
        Assert.Equal(lights[0] - 1.5, first.GetProperty("offset").GetDouble(), 1e-9);
        Said second = _tool.Run("marker", run, slow, "--frame", "360", "--rate", "240", "--light", "2");
        Assert.Equal(0, second.ExitCode);
        Assert.Contains("within a frame of 0.0042 s", second.Output, StringComparison.Ordinal);
        JsonElement[] files = [.. _tool.Run("runs", "show", run, "--json").Json.GetProperty("files").EnumerateArray()];
        Assert.Equal([(clip, lights[0] - 1.5), (slow, lights[1] - 1.5)], files.Select(f => (f.GetProperty("path").GetString()!, f.GetProperty("offset").GetDouble())));
        Assert.Contains("its time 0 is ", _tool.Run("report", run, "--output", "-").Output, StringComparison.Ordinal);
        // Asked again, the newer answer stands.
        Assert.Equal(0, _tool.Run("marker", run, clip, "--at", "2").ExitCode);
        Assert.Contains(_tool.Run("runs", "show", run, "--json").Json.GetProperty("files").EnumerateArray(), f => Math.Abs(f.GetProperty("offset").GetDouble() - (lights[0] - 2)) < 1e-9);

        Said none = _tool.Run("marker", run, clip, "--at", "1", "--light", "4");
        Assert.Equal(2, none.ExitCode);
        Assert.Contains("the light came on 3 times", none.Errors, StringComparison.Ordinal);
        Assert.Equal(2, _tool.Run("marker", run, clip, "--frame", "10").ExitCode);
        Assert.Equal(2, _tool.Run("marker", run, clip, "--at", "1", "--frame", "10", "--rate", "30").ExitCode);
        Assert.Equal(2, _tool.Run("marker", run, clip + "x", "--at", "1").ExitCode);
    }

    [Fact]
    public void A_marker_that_never_lit_and_a_logbook_that_is_not_there_are_sentences()
    {
        string run = _tool.Enter("mass=180 g");
        Said said = _tool.Run("marker", run, _tool.Write("clip.mp4", "frames"), "--at", "1.5");
        Assert.Equal(2, said.ExitCode);
        Assert.Contains("never came on", said.Errors, StringComparison.Ordinal);
        Assert.Equal(2, _tool.Run("logbook", "verify", "--logbook", At("nowhere.sqlite")).ExitCode);
    }

    private static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    private string At(string name) => Path.Combine(_tool.Folder, name);

    private static double Steady(JsonElement run) => run.GetProperty("figures").EnumerateArray()
        .Where(f => f.GetProperty("name").GetString() == "steady-speed").Select(f => f.GetProperty("value").GetDouble()).First();
}
