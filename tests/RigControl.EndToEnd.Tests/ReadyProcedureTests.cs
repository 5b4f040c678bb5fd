using System.Text.Json;
using System.Text.RegularExpressions;

namespace RigControl.EndToEnd.Tests;

/// <summary>Every procedure that comes along runs to its end on the simulated rig, and has a card that warns.</summary>
public sealed partial class ReadyProcedureTests : IDisposable
{
    // Done with nothing on the shaft; all others with the disc.
    private static readonly string[] RotorOff = ["first-power", "controller-range", "stall"];

    // Done with nothing energised.
    private static readonly string[] NothingArmed = ["weigh"];

    private static readonly string Folder = Path.Combine(Tool.Root, "procedures");

    private readonly Tool _tool = new();

    public static TheoryData<string> Names { get; } = [.. Directory.GetFiles(Folder, "*.yaml")
        .Where(f => ProcedureKey().IsMatch(File.ReadAllText(f))).Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];

    [Fact]
    public void There_are_procedures_for_the_first_sessions() =>
        Assert.Superset(
            new HashSet<string> { "first-power", "controller-range", "enclosed-spin-up", "coast-down", "motor-constants", "stall", "controller-heat", "match-load", "pack-sag", "weigh", "servo-check" },
            new HashSet<string>(Names.Select(n => n.Data)));

    [Theory, MemberData(nameof(Names))]
    public void A_procedure_that_comes_along_runs_to_its_end_on_the_simulated_rig(string name)
    {
        string article = ArticleOf(name);
        Said said = _tool.Run(
            "run", $"procedures/{name}.yaml", "--rig", RigFor(name), "--article", $"procedures/{article}.article.yaml", "--pace", "max", "--json");
        Assert.Equal("", string.Join('\n', said.Errors.Split('\n').Where(l => l.Contains("TRIP", StringComparison.Ordinal))));
        Assert.Equal(0, said.ExitCode);
        Assert.Equal("completed", said.Json.GetProperty("outcome").GetString());
        bool turned = said.Json.GetProperty("states").EnumerateArray().Any(s => s.GetProperty("state").GetString() == "SpinUp");
        Assert.Equal(!NothingArmed.Contains(name), turned);
    }

    // A stall needs a motor that is held.
    private string RigFor(string name) =>
        name == "stall" ? _tool.SimulatedRig("ambient: 20 degC", "ambient: 20 degC, rotor-held: yes") : Path.Combine(Folder, "simulated.rig.yaml");

    private static string ArticleOf(string name) =>
        name == "servo-check" ? "bench-servo" : RotorOff.Contains(name) || NothingArmed.Contains(name) ? "bench-motor" : "disc-180";

    [Theory, MemberData(nameof(Names))]
    public void A_procedure_that_comes_along_is_in_order_together_with_its_rig_and_article(string name)
    {
        Said said = _tool.Run("check", $"procedures/{name}.yaml", "procedures/simulated.rig.yaml", $"procedures/{ArticleOf(name)}.article.yaml");
        Assert.True(said.ExitCode == 0, said.Output);
        Assert.DoesNotContain("run will refuse", said.Output, StringComparison.Ordinal);
    }

    [Theory, MemberData(nameof(Names))]
    public void Every_figure_that_check_says_nothing_against_comes_with_a_number(string name)
    {
        string article = ArticleOf(name);
        string[] files = [$"procedures/{name}.yaml", RigFor(name), $"procedures/{article}.article.yaml"];
        string[] without = [.. Note().Matches(_tool.Run(["check", .. files]).Output).Select(m => m.Groups[1].Value)];
        JsonElement figures = _tool.Run("run", files[0], "--rig", files[1], "--article", files[2], "--pace", "max", "--json").Json.GetProperty("figures");
        // A temperature's figures come once for each part; one of them is enough.
        foreach (var same in figures.EnumerateArray().GroupBy(f => (f.GetProperty("name").GetString(), f.GetProperty("repeat").GetInt32())))
        {
            bool number = same.Any(f => f.GetProperty("value").ValueKind == JsonValueKind.Number);
            Assert.True(number != without.Contains(same.Key.Item1), string.Join('\n', same.Select(f => f.GetRawText())));
        }
    }

    [Theory, MemberData(nameof(Names))]
    public void A_procedure_has_a_card_that_says_what_for_what_to_mind_what_happens_and_what_it_means(string name)
    {
        string card = File.ReadAllText(Path.Combine(Folder, $"{name}.card.md"));
        string[] sections = ["What it is for", "Cautions", "Prepare", "What happens", "What the figures mean", "When it stops by itself", "When it does not stop"];
        Assert.Equal(sections, Section().Matches(card).Select(m => m.Groups[1].Value));
        string[] words = ["pack", "lasses", "nclosure", "Local rules", "your event", "hard-wired stop", "charge a pack", "three acts", "Minors"];
        Assert.All(words, w => Assert.Contains(w, card, StringComparison.Ordinal));
        Assert.Contains($"For `{name}.yaml`", card, StringComparison.Ordinal);
        Assert.Contains($"{name}.card.md", File.ReadAllText(Path.Combine(Folder, $"{name}.yaml")), StringComparison.Ordinal);
    }

    [Theory, MemberData(nameof(Names))]
    public void A_card_explains_every_figure_of_its_procedure(string name)
    {
        string card = File.ReadAllText(Path.Combine(Folder, $"{name}.card.md"));
        string[] figures = Figures().Match(File.ReadAllText(Path.Combine(Folder, $"{name}.yaml"))).Groups[1].Value.Split(", ");
        Assert.All(figures, f => Assert.Contains($"`{f}`", card, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("first-power")]
    [InlineData("controller-range")]
    [InlineData("stall")]
    public void A_card_for_a_bare_motor_says_first_that_nothing_is_on_its_shaft(string name) =>
        Assert.Contains("**No rotor", File.ReadAllText(Path.Combine(Folder, $"{name}.card.md")).Split("## Cautions")[1][..20], StringComparison.Ordinal);

    public void Dispose() => _tool.Dispose();

    [GeneratedRegex("(?m)^procedure:")]
    private static partial Regex ProcedureKey();

    [GeneratedRegex("(?m)^## (.+)$")]
    private static partial Regex Section();

    [GeneratedRegex(@"(?m)^figures: \[(.+)\]$")]
    private static partial Regex Figures();

    [GeneratedRegex(@"(?m)^note: .*: no ([a-z-]+): ")]
    private static partial Regex Note();
}
