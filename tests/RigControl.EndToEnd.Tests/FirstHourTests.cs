using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>The first hour: files by questions, what they cannot give, and every input live, before anything turns.</summary>
public sealed class FirstHourTests : IDisposable
{
    private static readonly string[] Article =
    [
        "bench", "one-way", "longer", "1000 us", "2000 us", "1000 us", "no", "unknown", "2 s", "no", "yes", "1000 rpm/V", "80 mOhm", "1.2 A", "30 A",
        "yes", "LiPo", "3S", "1300 mAh", "30 mOhm", "0.5 s", "5 s", "0.5 s",
    ];

    private static readonly string[] Rig =
    [
        "box", "", "no", "60 rpm", "1 s", "simulated-rig", "no more", "yes", "no", "yes", "yes", "yes", "35 A", "60 A", "yes", "9000 rpm",
        "yes", "rotor.speed", "50 ms", "no", "yes", "no", "yes", "motor.temperature", "80 degC", "20 K", "5 s", "no", "yes", "9 V", "no more",
    ];

    private static readonly string[] Procedure =
        ["half", "1", "lid-closed, lid-locked", "10 s", "yes", "50 %", "2 s", "", "", "10 s", "3 s", "60 s", "1 s", "steady-speed, tip-speed"];

    private readonly Tool _tool = new();

    [Fact]
    public void Three_files_made_by_questions_are_in_order_and_run()
    {
        string article = New("article", Article), rig = New("rig", Rig), procedure = New("procedure", Procedure);
        Said check = _tool.Run("check", article, rig, procedure);
        Assert.Equal(0, check.ExitCode);
        Assert.Contains("note: half on box with bench: no tip-speed: the article gives no rotor", check.Output, StringComparison.Ordinal);
        Said run = _tool.Run("run", procedure, "--rig", rig, "--article", article, "--pace", "max", "--json");
        Assert.Equal("completed", run.Json.GetProperty("outcome").GetString());
    }

    [Fact]
    public void A_new_file_may_go_to_standard_output_with_the_questions_beside_it()
    {
        Said said = Ask(["new", "rules", "-"], "none-yet", "no", "no", "no", "no");
        Assert.Equal(0, said.ExitCode);
        Assert.Contains("limits: {}", said.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("1.", said.Output, StringComparison.Ordinal);
        Assert.Contains(" 1. What is this set of limits called?", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_there_is_written_over_only_after_a_yes()
    {
        string file = _tool.Write("mine.rules.yaml", "kept");
        Said no = Ask(["new", "rules", file], "no");
        Assert.Equal((2, "kept"), (no.ExitCode, File.ReadAllText(file)));
        Said silence = Ask(["new", "rules", file]);
        Assert.Equal((2, "kept"), (silence.ExitCode, File.ReadAllText(file)));
        Said yes = Ask(["new", "rules", file], "yes", "mine", "no", "no", "no", "no");
        Assert.Equal(0, yes.ExitCode);
        Assert.Contains("rules: mine", File.ReadAllText(file), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ended")]
    [InlineData("question 2", "bench", "sideways")]
    [InlineData("has no unit", "bench", "one-way", "longer", "1000")]
    public void Answers_that_will_not_do_end_in_a_sentence_and_leave_no_file(string sentence, params string[] answers)
    {
        string file = Path.Combine(_tool.Folder, "new.article.yaml");
        Said said = Ask(["new", "article", file], answers);
        Assert.Equal(2, said.ExitCode);
        Assert.Contains(sentence, said.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(file));
    }

    [Fact]
    public void A_folder_that_is_not_there_or_takes_no_file_is_told_before_the_first_question()
    {
        Said nowhere = Ask(["new", "rig", Path.Combine(_tool.Folder, "nowhere", "a.yaml")]);
        Assert.Equal(2, nowhere.ExitCode);
        Assert.StartsWith("there is no folder", nowhere.Errors, StringComparison.Ordinal);
        // Not even a privileged user may write there.
        Said readOnly = Ask(["new", "rig", "/proc/a.yaml"]);
        Assert.Equal(2, readOnly.ExitCode);
        Assert.StartsWith("no file can be written into /proc", readOnly.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_notes_where_an_article_could_pass_a_limit_of_the_rules()
    {
        string rules = _tool.Write("r.yaml", "rules: r\nlimits:\n  tip-speed: { value: 40 m/s, source: section 5, date: 2026-05-31 }");
        Said said = _tool.Run("check", rules, "procedures/disc-180.article.yaml");
        Assert.Equal(0, said.ExitCode);
        // 10000 rpm at 45 mm: 2 pi times 10000 / 60 times 0.045 = 47.1 m/s; derived.
        Assert.Contains("note: disc-180: its maximum speed gives 47.1 m/s at the tip, above 40 m/s (section 5, 2026-05-31)", said.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_says_what_a_rig_without_a_tachometer_will_not_give()
    {
        string rig = _tool.Write("blind.rig.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "board.rig.yaml"))
            .Replace("servo-rate: 50 Hz", "tachometer: no", StringComparison.Ordinal));
        Said said = _tool.Run("check", rig, "procedures/coast-down.yaml");
        Assert.Equal(0, said.ExitCode);
        Assert.Contains("no coast-down-time: the rig supplies no rotor.speed", said.Output, StringComparison.Ordinal);
        Assert.Contains("step 2 waits for rotor.speed, which the rig does not supply", said.Output, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-087")]
    [Theory]
    [InlineData("  - id: key-turned\n    plugin: key-turned\n", "", true)]
    [InlineData("    plugin: key-turned\n", "    plugin: key-turned\n", false)]
    public void Check_says_that_a_board_s_key_has_to_be_asked_for(string written, string instead, bool says)
    {
        string text = File.ReadAllText(Path.Combine(Tool.Root, "procedures", "board.rig.yaml"));
        Assert.Contains(written, text, StringComparison.Ordinal);
        Said said = _tool.Run("check", _tool.Write("keyless.rig.yaml", text.Replace(written, instead, StringComparison.Ordinal)));
        Assert.Equal(says, said.Output.Contains("the rig has an arm key, and nothing asks for it before it is armed", StringComparison.Ordinal));
    }

    [Trait("Requirement", "SAF-091")]
    [Fact]
    public void No_rig_file_makes_less_than_a_cut_of_a_stop_that_is_pressed()
    {
        string weak = _tool.SimulatedRig("    plugin: stop-clear", "    plugin: stop-clear\n    action: stop-output");
        Said check = _tool.Run("check", weak);
        Assert.Equal(2, check.ExitCode);
        Assert.Matches(@"changed\.rig\.yaml:\d+:13: a trip of stop-clear removes the power at once, and no rig file may ask for less; write `action: cut-power`, or leave `action` out", check.Output);
        string[] on = ["--rig", weak, "--article", "procedures/disc-180.article.yaml"];
        foreach (string[] command in (string[][])[["run", "procedures/enclosed-spin-up.yaml", "--pace", "max"], ["failsafe", "--pace", "max"], ["signals", "--for", "1 s"], ["rehearse", "procedures/enclosed-spin-up.yaml"]])
        {
            Said said = _tool.Run([.. command, .. on]);
            Assert.Equal(2, said.ExitCode);
            Assert.Contains("a trip of stop-clear removes the power at once", said.Errors, StringComparison.Ordinal);
        }
    }

    [Trait("Requirement", "SAF-091")]
    [Fact]
    public void Check_says_of_a_stop_on_which_nothing_stops_that_run_will_refuse_it_and_run_does()
    {
        string deaf = _tool.SimulatedRig("  - id: stop-clear\n    plugin: stop-clear\n", "");
        Said check = _tool.Run("check", deaf);
        Assert.Contains("a stop pressed there would stop nothing; add an interlock `plugin: stop-clear`", check.Output, StringComparison.Ordinal);
        string free = _tool.Write("free.yaml", "procedure: free\nrequires: []\nsteps: [{ rest: { for: 1 s } }]\n");
        Said run = _tool.Run("run", free, "--pace", "max", "--rig", deaf, "--article", "procedures/disc-180.article.yaml");
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("a stop pressed there would stop nothing", run.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_procedure_given_with_articles_of_several_kinds_has_to_fit_one_of_them()
    {
        Said wrong = _tool.Run("check", "procedures/servo-check.yaml", "procedures/bench-motor.article.yaml");
        Assert.Equal(2, wrong.ExitCode);
        Assert.Contains("the controller of bench-motor is one-way and cannot be driven backwards", wrong.Output, StringComparison.Ordinal);
        Assert.Equal(0, _tool.Run("check", "procedures/servo-check.yaml", "procedures/bench-motor.article.yaml", "procedures/bench-servo.article.yaml").ExitCode);
    }

    [Fact]
    public void Signals_shows_every_input_once_a_second_with_everything_off()
    {
        Said said = _tool.Run("signals", "--for", "2500 ms");
        Assert.Equal(0, said.ExitCode);
        string[] lines = said.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.InRange(lines.Length, 1, 3);
        Assert.Contains("output.power 0 off", lines[^1], StringComparison.Ordinal);
        Assert.Contains("enclosure.lock 1 locked", lines[^1], StringComparison.Ordinal);
        Assert.Matches(@"battery\.voltage 1[12]\.\d+ V", lines[^1]);
        Assert.DoesNotContain("device.", lines[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_snapshot_is_one_document_in_safe_stop_with_every_interlock()
    {
        JsonElement seen = _tool.Run("signals", "--json").Json;
        Assert.Equal("SafeStop", seen.GetProperty("state").GetString());
        Assert.True(seen.GetProperty("simulated").GetBoolean());
        Assert.Equal(0, Value(seen, "output.throttle"));
        Assert.Equal(0, Value(seen, "output.power"));
        Assert.Equal(1, Value(seen, "stop.clear"));
        JsonElement failsafe = seen.GetProperty("interlocks").EnumerateArray().Single(i => i.GetProperty("name").GetString() == "failsafe-confirmed");
        Assert.True(failsafe.GetProperty("objects").GetBoolean());
        Assert.Empty(_tool.Run("runs", "list", "--json").Json.EnumerateArray());
    }

    [Fact]
    public void Signals_ends_in_order_when_it_is_told_to()
    {
        using Process process = _tool.Begin("signals");
        Assert.NotNull(process.StandardOutput.ReadLine());
        Tool.Signal(process, "INT");
        Assert.Equal(0, Tool.End(process).ExitCode);
    }

    [Theory]
    [InlineData("soon")]
    [InlineData("10")]
    [InlineData("-1 s")]
    [InlineData("0 s")]
    public void A_time_that_is_none_is_explained(string time)
    {
        Said said = _tool.Run("signals", $"--for={time}");
        Assert.Equal(2, said.ExitCode);
        Assert.Contains("write seconds with their unit", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Signals_on_a_port_that_is_not_there_is_a_sentence()
    {
        string rig = _tool.Write("board.rig.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "board.rig.yaml"))
            .Replace("/dev/ttyUSB0", "/dev/no-such-port", StringComparison.Ordinal));
        Said said = _tool.Run("signals", "--rig", rig, "--article", "procedures/bench-motor.article.yaml");
        Assert.Equal(5, said.ExitCode);
        Assert.Contains("there is no serial port /dev/no-such-port", said.Errors, StringComparison.Ordinal);
    }

    public void Dispose() => _tool.Dispose();

    private static double Value(JsonElement seen, string channel) =>
        seen.GetProperty("channels").EnumerateArray().Single(c => c.GetProperty("name").GetString() == channel).GetProperty("value").GetDouble();

    private string New(string kind, string[] answers)
    {
        string file = Path.Combine(_tool.Folder, $"new.{kind}.yaml");
        Said said = Ask(["new", kind, file], answers);
        Assert.Equal("", said.Output);
        Assert.True(said.ExitCode == 0, said.Errors);
        return file;
    }

    private Said Ask(string[] command, params string[] answers)
    {
        using Process process = _tool.Begin(command);
        foreach (string answer in answers)
            process.StandardInput.WriteLine(answer);
        return Tool.End(process);
    }
}
