using System.Text.RegularExpressions;
using RigControl.Analysis.Comparing;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Reports.Pages;
using RigControl.Reports.Plots;

namespace RigControl.Reports.Tests;

/// <summary>A report is one file, says the verdict first and hides nothing.</summary>
public partial class PageTests
{
    [Fact]
    public void The_verdict_stands_before_everything_else_and_a_simulated_run_says_so()
    {
        string page = RunPage.Write(Report());
        Assert.True(page.IndexOf("Completed: 1 figure, no trip.", StringComparison.Ordinal) < page.IndexOf("<h2>", StringComparison.Ordinal));
        Assert.Contains("SIMULATED", page, StringComparison.Ordinal);
        Assert.DoesNotContain("SIMULATED", RunPage.Write(Report() with { Header = Header(simulated: false) }), StringComparison.Ordinal);
    }

    [Fact]
    public void A_page_asks_for_nothing_from_elsewhere()
    {
        string page = RunPage.Write(Report());
        Assert.DoesNotMatch(Outside(), page.Replace("http://www.w3.org/", "", StringComparison.Ordinal));
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Whatever_a_person_or_a_file_says_is_text_and_never_markup()
    {
        const string evil = "<script>alert(1)</script>";
        RunReport report = Report() with
        {
            Header = Header(simulated: true) with { Article = new DocumentCopy(evil, evil), Operator = evil },
            Remarks = [new Remark(RemarkKind.Incident, DateTimeOffset.UnixEpoch, evil, "", evil, 1), new Remark(RemarkKind.PartChanged, DateTimeOffset.UnixEpoch, evil, evil, evil, null)],
            Files = [new Attachment("/" + evil, "00", 1, DateTimeOffset.UnixEpoch, null)], Tags = [evil], Cautions = [evil],
            Events = [Event(EventNames.Trip, evil)], Figures = [new(evil, 1, evil, 0.1, (0, 2), 1, evil, evil) { Budget = [new(evil, 0.1, 0.9), new(evil, 0.03, 0.1)] }],
        };
        Assert.DoesNotContain("<script", RunPage.Write(report), StringComparison.Ordinal);
    }

    [Fact]
    public void A_trip_is_the_verdict_and_stands_with_its_time_and_reaction()
    {
        RunReport report = Report() with
        {
            End = new RunEnd(RunOutcome.SafeStop, DateTimeOffset.UnixEpoch, null),
            Events = [Event(EventNames.Trip, "the lid opened", new() { ["reaction"] = 0.0114 })],
        };
        string page = RunPage.Write(report);
        Assert.Contains("Ended in safe-stop: the lid opened.", page, StringComparison.Ordinal);
        Assert.Contains("12.500", page, StringComparison.Ordinal);
        Assert.Contains("stop output after 11.4 ms", page, StringComparison.Ordinal);
        Assert.Contains("verdict bad", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Plots_stand_one_by_one_so_that_a_printed_page_may_end_between_them_and_share_no_identifier()
    {
        Series In(string unit) => new(unit, 0, [0, 1, 2], [0, 3, 1]);
        string page = RunPage.Write(Report() with { Panels = Panel.Of([("rotor.speed", In("rpm")), ("battery.current", In("A")), ("battery.voltage", In("V"))]) });
        Assert.Equal(3, Regex.Count(page, "<figure><svg"));
        string[] ids = [.. Regex.Matches(page, "\\bid=\"([^\"]+)\"").Select(m => m.Groups[1].Value)];
        Assert.Equal(ids.Length, ids.Distinct().Count());
    }

    [Fact]
    public void A_figure_is_rounded_to_its_uncertainty_and_one_that_cannot_be_had_says_why()
    {
        RunReport report = Report() with
        {
            Figures = [new("peak-speed", 8912.437, "rpm", 6.1, (8900.21, 8924.62), 1, "highest", null), new("drag-constant", null, "N.m", null, null, 1, "fit", "the article declares no inertia")],
        };
        string page = RunPage.Write(report);
        Assert.Contains("<td class=\"number\">8912.4</td><td class=\"number\">6.1</td><td>rpm</td>", page, StringComparison.Ordinal);
        Assert.Contains("no drag-constant: the article declares no inertia", page, StringComparison.Ordinal);
        Assert.Contains("A single run: how well it repeats is unknown.", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_figure_says_what_most_of_its_uncertainty_comes_from_and_where_it_is_asked_for_all_of_it()
    {
        RunReport report = Report() with
        {
            Figures = [new("spin-up-time", 1.9916, "s", 0.0016, (1.988, 1.995), 1, "m", null) { Budget = [new("moment of the demand", 0.00145, 0.82), new("steady speed", 0.00068, 0.18)] }],
        };
        string page = RunPage.Write(report);
        Assert.Contains("<li>spin-up-time: most of it from moment of the demand (82 %)</li>", page, StringComparison.Ordinal);
        Assert.Contains("spin-up-time, repeat 1: moment of the demand 0.0014 s (82 %), steady speed 0.00068 s (18 %)", page, StringComparison.Ordinal);
        Assert.DoesNotContain("What to measure better", RunPage.Write(Report()), StringComparison.Ordinal);
    }

    [Fact]
    public void Repeats_tell_what_lies_within_between_and_in_common_with_the_degrees_of_freedom()
    {
        Figure[] energies = [.. new[] { 70.0, 80, 90 }.Select((v, i) => new Figure("stored-energy", v, "J", 5, (v - 10, v + 10), i + 1, "m", null) { Budget = [new("inertia", 4, 0.64), new("peak speed", 3, 0.36)] })];
        string page = RunPage.Write(Report() with { Figures = energies });
        Assert.Contains(
            "<td>stored-energy</td><td class=\"number\">80</td><td class=\"number\">25</td><td>J</td><td class=\"number\">10</td><td class=\"number\">3.0</td><td class=\"number\">9.5</td><td class=\"number\">4.0</td><td class=\"number\">3</td><td class=\"number\">4.4</td><td>more repeats do not make less of inertia</td>",
            page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sensor_without_a_calibration_is_named_first_and_again_in_the_budget_without_a_number()
    {
        RunReport report = Report() with
        {
            Figures = [new("mean-current", 20, "A", 0.1, (19.8, 20.2), 1, "m", null) { Budget = [new("samples", 0.1, 1), new("battery.current: no calibration", 0, 0)] }],
        };
        string page = RunPage.Write(report);
        Assert.Contains("<li>battery.current: no calibration, of unknown size in mean-current.</li>", page, StringComparison.Ordinal);
        Assert.Contains("<li>mean-current: all of it from samples</li>", page, StringComparison.Ordinal);
        Assert.Contains("mean-current, repeat 1: samples 0.10 A (100 %), battery.current: no calibration", page, StringComparison.Ordinal);
    }

    [Fact]
    public void The_interlock_with_the_least_room_stands_first()
    {
        RunReport report = Report() with { Margins = [new("lid", 1, "the lid is closed", 3), new("over-speed", 0.04, "rotor 11520 rpm is within the limit of 12000 rpm", 7.25)] };
        string page = RunPage.Write(report);
        Assert.True(page.IndexOf("over-speed", StringComparison.Ordinal) < page.IndexOf("<td>lid</td>", StringComparison.Ordinal));
        Assert.Contains("<td class=\"number\">4 %</td><td>rotor 11520 rpm is within the limit of 12000 rpm</td>", page, StringComparison.Ordinal);
    }

    [Fact]
    public void The_provenance_tells_clock_operator_calibrations_and_every_option()
    {
        RunHeader header = Header(simulated: false);
        string page = RunPage.Write(Report() with
        {
            Header = header with
            {
                Clock = "real, monotonic", Calibrations = [new("battery.current", DateTimeOffset.UnixEpoch, null, "0.1 A + 1.02 x", "a shunt")],
                Devices = [header.Devices[0] with { Options = new Dictionary<string, string> { ["ambient"] = "20" } }],
            },
        });
        Assert.Contains("<td>clock</td><td>real, monotonic</td>", page, StringComparison.Ordinal);
        Assert.Contains("<td>operator</td><td>school workshop</td>", page, StringComparison.Ordinal);
        Assert.Contains("battery.current = 0.1 A + 1.02 x, x the reading; of 1970-01-01, against a shunt", page, StringComparison.Ordinal);
        Assert.Contains("bench simulated-rig, ambient 20", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_run_without_an_end_is_called_broken_off() =>
        Assert.Contains("Broken off", RunPage.Write(Report() with { End = null }), StringComparison.Ordinal);

    [Fact]
    public void Typed_readings_are_reported_without_plots_and_with_their_caution()
    {
        string page = RunPage.Write(Report() with { Header = Header(simulated: false) with { Channels = [] }, Panels = [] });
        Assert.DoesNotContain("<svg", page, StringComparison.Ordinal);
        Assert.Contains("Typed readings", page, StringComparison.Ordinal);
    }

    [Fact]
    public void What_could_not_trip_is_not_said_to_have_had_none() => Assert.Contains(
        "Completed: 1 figure.", RunPage.Write(Report() with { Header = Header(simulated: false) with { Rig = new("by-hand", "") } }), StringComparison.Ordinal);

    [Fact]
    public void A_caution_that_many_figures_share_stands_once()
    {
        string page = RunPage.Write(Report() with { Figures = [.. new[] { "drag-constant", "drag-linear", "drag-linear" }.Select(n => Of(n, "N.m", 1) with { Note = "inertia as declared" })] });
        Assert.Equal(1, Regex.Count(page, "inertia as declared"));
        Assert.Contains("<li>drag-constant, drag-linear: inertia as declared</li>", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_comparison_begins_with_what_changed_and_ends_with_the_runs()
    {
        Figure[] Run(double time, double speed) => [Of("spin-up-time", "s", time), Of("steady-speed", "rpm", speed)];
        IReadOnlyList<ComparedFigure> figures = Comparison.Of(
            [Run(2.00, 9000), Run(2.01, 9050), Run(1.99, 8950)], [Run(1.80, 9010), Run(1.81, 8960), Run(1.79, 9060)], sameRig: true, fresh: false);
        string page = ComparisonPage.Write([new ComparisonReport("disc-180", false, new("old-belt", ["a", "b", "c"]), new("new-belt", ["d", "e", "f"]), figures) { Conditions = ["the pack began lower"], Parts = ["belt: shorter"] }]);
        Assert.True(page.IndexOf("spin-up-time shorter by", StringComparison.Ordinal) < page.IndexOf("<h2>", StringComparison.Ordinal));
        Assert.Contains("steady-speed: no difference seen", page, StringComparison.Ordinal);
        Assert.Contains("the pack began lower", page, StringComparison.Ordinal);
        Assert.Contains("new-belt: d, e, f", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_comparison_of_spin_ups_shows_what_each_cause_adds_or_says_why_that_is_not_known()
    {
        ComparisonReport report = new("disc-180", false, new("old-belt", ["a"]), new("new-belt", ["b"]), []);
        WhySlower why = new(new(0.01, 0.02), new(-0.0004, 0.0001), new(0.002, 0.0005), new(0.2, 0.004), new(-0.003, 0.01));
        string page = ComparisonPage.Write([report with { Why = new SpinUpSplit(700, new(0.75, 0.003), new(0.96, 0.003), why, (3, 2)) }]);
        Assert.Contains("On the side of new-belt the spin-up to 6685 rpm takes 0.210", page, StringComparison.Ordinal);
        Assert.True(page.IndexOf("<td>inertia</td>", StringComparison.Ordinal) < page.IndexOf("<td>supply</td>", StringComparison.Ordinal));
        Assert.Contains("<td>supply</td><td class=\"number\">0.010</td><td class=\"number\">-0.029</td><td class=\"number\">0.049</td><td>may be nothing</td>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("-0.000", page, StringComparison.Ordinal);
        Assert.Contains("From 3 and 2 spin-ups", page, StringComparison.Ordinal);
        Assert.Contains("This cannot be told: its drag is not known.", ComparisonPage.Write([report with { NoWhy = "its drag is not known" }]), StringComparison.Ordinal);
        Assert.DoesNotContain("Why the spin-up", ComparisonPage.Write([report]), StringComparison.Ordinal);
    }

    [Fact]
    public void A_comparison_says_which_side_changed_and_draws_how_much_with_what_is_more_than_noise_filled()
    {
        string page = ComparisonPage.Write([SamplePages.Comparison()]);
        Assert.Contains("With tag:new-belt instead of tag:old-belt, 1 of 3 figures changed by more than noise:", page, StringComparison.Ordinal);
        Assert.Equal(1, Regex.Count(page, "<circle[^>]*fill=\"currentColor\""));
        Assert.Equal(1, Regex.Count(page, "<circle[^>]*fill=\"var\\(--paper\\)\""));
        // A share of a temperature says nothing.
        Assert.DoesNotContain(">temperature-rise", page[page.IndexOf("<figure class", StringComparison.Ordinal)..page.IndexOf("</figure>", StringComparison.Ordinal)], StringComparison.Ordinal);
    }

    [Fact]
    public void Where_no_interval_is_known_nothing_is_drawn()
    {
        IReadOnlyList<ComparedFigure> single = Comparison.Of([new[] { Of("spin-up-time", "s", 2) }], [new[] { Of("spin-up-time", "s", 1.8) }], sameRig: true, fresh: false);
        string page = ComparisonPage.Write([new ComparisonReport("disc-180", false, new("a", ["a"]), new("b", ["b"]), single)]);
        Assert.DoesNotContain("How large", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<circle", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_verification_says_first_whether_there_is_a_proof_and_lists_what_was_provoked()
    {
        RunReport report = SamplePages.Verification();
        string page = RunPage.Write(report);
        Assert.Contains("<p class=\"verdict good\">The failsafe was verified; the proof is good until 2031-05-04 12:26 UTC.</p>", page, StringComparison.Ordinal);
        Assert.Contains("<td>passed</td><td class=\"number\">75</td><td class=\"number\">200</td>", page, StringComparison.Ordinal);
        // That a provocation was seen to its end is no trip to look into.
        Assert.DoesNotContain("what was provoked was seen", page, StringComparison.Ordinal);
        Assert.Contains("the lid is open", page, StringComparison.Ordinal);
        string none = RunPage.Write(report with { Verification = new(null, []) });
        Assert.Contains("<p class=\"verdict bad\">No proof", none, StringComparison.Ordinal);
        Assert.DoesNotContain("What was provoked", none, StringComparison.Ordinal);
    }

    [Fact]
    public void The_mean_of_the_repeats_stands_before_each_of_them()
    {
        string page = RunPage.Write(SamplePages.Run());
        int mean = page.IndexOf("<td>spin-up-time</td><td class=\"number\">0.760</td><td class=\"number\">0.012</td><td>s</td><td class=\"number\">0.0050</td><td class=\"number\">", StringComparison.Ordinal);
        Assert.InRange(mean, 1, page.IndexOf("Each repeat", StringComparison.Ordinal));
        Assert.DoesNotContain("Each repeat", RunPage.Write(Report()), StringComparison.Ordinal);
    }

    private static Figure Of(string name, string unit, double value) => new(name, value, unit, 0.001, null, 1, "m", null);

    private static RigEvent Event(string name, string text, Dictionary<string, object>? data = null) =>
        new(TimeSpan.FromSeconds(12.5), 2500, name, "lid-closed", text, data ?? []);

    private static RunReport Report() => new(Header(simulated: true), "completed", new RunEnd(RunOutcome.Completed, DateTimeOffset.UnixEpoch, null))
    {
        Figures = [new("peak-speed", 8912.4, "rpm", 6.1, (8900.2, 8924.6), 1, "highest", null)],
        Panels = Panel.Of([("rotor.speed", new Series("rpm", 1, [0, 1, 2], [0, 9000, 0]))]),
    };

    private static RunHeader Header(bool simulated) => new()
    {
        Run = "abc", StartedAt = DateTimeOffset.UnixEpoch, Simulated = simulated, Seed = 1, Operator = "school workshop", Software = "0.1.0",
        Procedure = new("enclosed-spin-up", "procedure: enclosed-spin-up\n"), Rig = new("bench", "rig: bench\n"), Article = new("disc-180", "article: disc-180\n"),
        Plugins = [], Interlocks = [],
        Devices = [new("bench", "simulated-rig", simulated, new Dictionary<string, string>())],
        Channels = [new Channel(0, "rotor.speed", 0, new ChannelDeclaration { Name = "rotor.speed", Unit = "rpm", Minimum = 0, Maximum = 1e5, Period = TimeSpan.FromMilliseconds(1), MaximumAge = TimeSpan.FromMilliseconds(5) })],
    };

    [GeneratedRegex("https?://|src=|@import")]
    private static partial Regex Outside();
}
