using RigControl.Cli.Terminal;
using RigControl.Telemetry.Watching;
using Spectre.Console;

namespace RigControl.Cli.Tests.Terminal;

/// <summary>A site at a glance: what stands in the window, and what it never pretends.</summary>
public class SiteViewTests
{
    private static readonly RigGlimpse Holding = new("box-1")
    {
        Status = "online", State = "Hold", Phase = "None", Run = "r1", Tightest = "motor-temperature", Margin = 0.42, Age = TimeSpan.FromSeconds(0.1),
    };

    private static readonly RigGlimpse Tripped = Holding with
    {
        Rig = "box-2", State = "SafeStop", Trips = ["lid-closed", "over-speed"], Tightest = "lid-closed", Objects = true, Margin = null, Simulated = true,
        Reasons = new Dictionary<string, string> { ["lid-closed"] = "the lid was opened", ["over-speed"] = "a reason that is far too long for a narrow window, so that it has to be cut off somewhere before it ends" },
    };

    [Fact]
    public void A_rig_at_work_shows_its_state_its_tightest_interlock_no_trips_and_the_age_of_its_link()
    {
        string line = Drawn([Holding]).Single(l => l.Contains("box-1", StringComparison.Ordinal));
        Assert.Equal(["box-1", "HOLD", "motor-temperature", "42", "%", "none", "0.1", "s"], line.Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }

    [Theory]
    [InlineData(80)]
    [InlineData(120)]
    public void A_tripped_rig_takes_one_line_in_the_table_and_its_causes_stand_below(int width)
    {
        string[] lines = Drawn([Holding, Tripped], width: width);
        Assert.Single(lines, l => l.Contains("SAFE-STOP", StringComparison.Ordinal) && l.Contains("lid-closed OBJECTS", StringComparison.Ordinal) && l.Contains("lid-closed +1", StringComparison.Ordinal));
        Assert.Single(lines, l => l.Contains("box-2: lid-closed: the lid was opened", StringComparison.Ordinal));
        Assert.All(lines, l => Assert.True(l.Length <= width, l));
    }

    [Fact]
    public void What_may_be_out_of_date_is_never_shown_as_if_it_were_so_now()
    {
        Assert.Contains(Drawn([Holding with { Age = TimeSpan.FromSeconds(9) }]), l => l.Contains("HOLD ?", StringComparison.Ordinal) && l.Contains("SILENT 9 s", StringComparison.Ordinal));
        Assert.Contains(Drawn([Holding with { Status = "lost" }]), l => l.Contains("HOLD ?", StringComparison.Ordinal) && l.Contains("LOST", StringComparison.Ordinal));
        Assert.Contains(Drawn([Holding with { Age = null }]), l => l.Contains("HOLD ?", StringComparison.Ordinal) && l.Contains("not heard yet", StringComparison.Ordinal));
    }

    [Fact]
    public void A_window_too_low_for_every_rig_says_how_many_it_leaves_out()
    {
        RigGlimpse[] many = [.. Enumerable.Range(10, 30).Select(i => Tripped with { Rig = $"rig-{i}" })];
        string[] lines = Drawn(many, height: 17);
        Assert.Equal(10, lines.Count(l => l.Contains("rig-", StringComparison.Ordinal)));
        Assert.Contains(lines, l => l.Contains("20 rigs more than this window has lines for", StringComparison.Ordinal));
        Assert.True(lines.Length < 17);
    }

    [Fact]
    public void A_broken_link_stands_above_everything()
    {
        string[] lines = Drawn([Holding with { Age = TimeSpan.FromSeconds(9) }], trouble: "nothing listens at broker.example:1883; start the broker");
        Assert.Contains("nothing listens", lines[0]);
    }

    [Theory]
    [InlineData("Idle", "None", "IDLE")]
    [InlineData("Arming", "AwaitingStart", "READY")]
    [InlineData("Arming", "Warning", "WARNING")]
    [InlineData("SpinUp", "None", "SPIN-UP")]
    [InlineData("CoastDown", "None", "COAST-DOWN")]
    [InlineData("", "", "no scan yet")]
    public void A_state_has_the_word_that_it_has_at_the_rig(string state, string phase, string word) =>
        Assert.Equal(word, SiteLines.State(Holding with { State = state, Phase = phase }));

    [Fact]
    public void Without_a_terminal_each_rig_is_one_plain_line() => Assert.Equal(
        "box-2 (simulated): SAFE-STOP; tightest lid-closed OBJECTS; trips lid-closed (the lid was opened); link 0.1 s",
        SiteLines.Of([Tripped with { Trips = ["lid-closed"] }]).Single());

    private static string[] Drawn(IReadOnlyList<RigGlimpse> rigs, int width = 100, int height = 24, string? trouble = null)
    {
        using StringWriter text = new();
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Ansi = AnsiSupport.No, ColorSystem = ColorSystemSupport.NoColors, Out = new AnsiConsoleOutput(text) });
        console.Profile.Width = width;
        console.Write(SiteView.Of(rigs, "workshop", trouble, width, height));
        return [.. text.ToString().Split('\n').Select(l => l.TrimEnd()).Where(l => l.Length > 0)];
    }
}
