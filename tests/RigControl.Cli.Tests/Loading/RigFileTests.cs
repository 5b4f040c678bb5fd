using RigControl.Cli.Loading;
using RigControl.Documents;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Tests.Loading;

/// <summary>A rig file that asks less than a cut of what always cuts is told so at its place, by whatever reads it.</summary>
public sealed class RigFileTests : IDisposable
{
    private const string Weak = "a trip of stop-clear removes the power at once, and no rig file may ask for less; write `action: cut-power`, or leave `action` out";

    private static readonly string Whole = File.ReadAllText(Path.Combine(Installed.Root, "procedures", "simulated.rig.yaml"));

    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-test-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_rig_file_that_weakens_nothing_reads_as_it_is() => Assert.NotNull(Read(Whole).Value);

    [Trait("Requirement", "SAF-091")]
    [Theory]
    [InlineData("stop-output")]
    [InlineData("refuse")]
    public void A_weaker_action_is_told_at_its_place_with_what_to_write(string action)
    {
        (string text, int line) = With("stop-clear", $"action: {action}");
        Reading<RigDefinition> reading = Read(text);
        Assert.Null(reading.Value);
        Assert.Equal([$"f:{line}:13: {Weak}"], reading.Problems.Select(p => p.ToString()));
    }

    [Trait("Requirement", "SAF-091")]
    [Theory]
    [InlineData("stop-clear")]
    [InlineData("lid-closed")]
    [InlineData("lid-locked")]
    [InlineData("over-speed")]
    [InlineData("tachometer-lost")]
    [InlineData("failsafe-confirmed")]
    public void Whatever_always_cuts_takes_neither_a_weaker_action_nor_a_scope_of_some_steps(string kind)
    {
        (string text, int line) = With(kind, "action: stop-output", "scope: named-steps");
        Assert.Equal([(line, "action"), (line + 1, "scope")], Read(text).Problems.Select(p => (p.Line, p.Remedy.Contains("`action`", StringComparison.Ordinal) ? "action" : "scope")));
    }

    [Fact]
    public void What_is_written_and_holds_anyway_is_in_order() => Assert.Empty(Read(With("stop-clear", "action: cut-power", "scope: every-step").Text).Problems);

    [Fact]
    public void A_file_that_is_wrong_otherwise_is_told_that_first() =>
        Assert.DoesNotContain(Read(With("stop-clear", "action: stop-output").Text.Replace("200 Hz", "200", StringComparison.Ordinal)).Problems, p => p.What.Contains("stop-clear", StringComparison.Ordinal));

    [Trait("Requirement", "SAF-091")]
    [Fact]
    public void Every_command_that_reads_rig_and_article_refuses_it_and_so_does_one_that_reads_the_rig_alone()
    {
        (string text, int line) = With("stop-clear", "action: refuse");
        string file = Path.Combine(_folder, "weak.rig.yaml");
        File.WriteAllText(file, text);
        string problem = $"{file}:{line}:13: {Weak}";
        Assert.Contains(problem, Assert.Throws<CliException>(() => Loader.ForLooking(file, DocumentAt("disc-180.article.yaml"))).Lines);
        Assert.Contains(problem, Assert.Throws<CliException>(() => Loader.FromFiles(file, DocumentAt("disc-180.article.yaml"), DocumentAt("enclosed-spin-up.yaml"))).Lines);
        Assert.Contains(problem, Assert.Throws<CliException>(() => Loader.Rig(file)).Lines);
        Assert.Contains(problem, Assert.Throws<CliException>(() => Loader.FromRecord(Recorded(Whole), [file])).Lines);
    }

    [Fact]
    public void What_was_recorded_of_such_a_rig_can_still_be_read_and_nothing_is_made_of_it()
    {
        RigDocuments recorded = Loader.FromRecord(Recorded(With("stop-clear", "action: refuse").Text));
        Assert.Equal(DemandAction.Refuse, recorded.Rig.Interlocks.Single(i => i.Plugin == "stop-clear").Action);
        Assert.Single(PowerCuts.Weakened(recorded.Rig, Installed.Plugins));
    }

    private static DocumentLoader Loader => new(Installed.Plugins);

    private static string DocumentAt(string name) => Path.Combine(Installed.Root, "procedures", name);

    private static Reading<RigDefinition> Read(string text) => RigFile.Read(text, "f", Installed.Plugins);

    private static (string Text, int Line) With(string kind, params string[] lines)
    {
        List<string> text = [.. Whole.Split('\n')];
        int plugin = text.IndexOf($"    plugin: {kind}");
        Assert.True(plugin >= 0, $"the demonstration's rig has no {kind}");
        text.InsertRange(plugin + 1, lines.Select(l => "    " + l));
        return (string.Join('\n', text), plugin + 2);
    }

    private static RunHeader Recorded(string rig) => new()
    {
        Run = "r", StartedAt = DateTimeOffset.UnixEpoch, Simulated = true, Seed = 1, Operator = "o", Software = "1",
        Procedure = new("enclosed-spin-up", File.ReadAllText(DocumentAt("enclosed-spin-up.yaml"))), Rig = new("simulated-box", rig),
        Article = new("disc-180", File.ReadAllText(DocumentAt("disc-180.article.yaml"))), Plugins = [], Devices = [], Interlocks = [], Channels = [],
    };
}
