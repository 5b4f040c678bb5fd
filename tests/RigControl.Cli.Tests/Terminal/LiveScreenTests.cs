using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Cli.Tests.Terminal;

/// <summary>What a person at the bench reads from the screen, on narrow and on wide terminals.</summary>
public class LiveScreenTests
{
    private static readonly (int Width, int Height) Narrow = (80, 23);
    private static readonly (int Width, int Height) Wide = (200, 49);

    private static readonly Lazy<IReadOnlyDictionary<string, string[]>> OnNarrow = new(() => Moments.Of(Narrow));

    public static TheoryData<int, int> Sizes { get; } = new() { { 80, 23 }, { 200, 49 }, { 60, 20 }, { 120, 40 } };

    [Theory, MemberData(nameof(Sizes))]
    public void No_state_needs_more_columns_or_rows_than_the_terminal_has(int width, int height)
    {
        IReadOnlyDictionary<string, string[]> shown = Moments.Of((width, height));
        Assert.Equal(["Arming", "CoastDown", "Hold", "Idle", "Ready", "SafeStop", "SpinUp", "Warning"], shown.Keys.Order(StringComparer.Ordinal));
        foreach ((string state, string[] rows) in shown)
        {
            Assert.True(rows.Length <= height, state);
            Assert.All(rows, r => Assert.True(r.Length <= width, $"{state}: {r}"));
        }
    }

    [Fact]
    public void The_state_is_the_first_thing_on_the_screen_in_letters_of_five_rows()
    {
        string[] hold = OnNarrow.Value["Hold"];
        string[] letters =
        [
            " ##      ##     ######     ##           ########",
            " ##      ##   ##      ##   ##           ##      ##",
            " ##########   ##      ##   ##           ##      ##",
            " ##      ##   ##      ##   ##           ##      ##",
            " ##      ##     ######     ##########   ########",
            " KEEP CLEAR: it turns",
        ];
        Assert.Equal(letters, hold[..6].Select(r => r.TrimEnd()));
    }

    [Fact]
    public void While_the_gate_is_open_it_says_that_the_transmitter_drives()
    {
        const string gated = "procedure: gated\nrequires: [lid-closed]\nsteps:\n  - arm:\n  - gate: { for: 3 s }\n  - coast-down: { timeout: 60 s }\n";
        IReadOnlyDictionary<string, string[]> shown = Moments.Of(Narrow, procedure: gated);
        Assert.Equal(" KEEP CLEAR: the transmitter drives", shown["SpinUp"][5].TrimEnd());
        Assert.Equal(" KEEP CLEAR: the rotor runs down under power", shown["CoastDown"][5].TrimEnd());
    }

    [Fact]
    public void Below_it_stand_the_chief_readings_and_how_long_it_may_still_take()
    {
        string[] hold = OnNarrow.Value["Hold"];
        Assert.Matches(@"^\d{4}\.\d rpm   throttle 60\.0 %   \d+\.\d A   1[12]\.\d V   motor 2\d\.\d °C", hold[6]);
        Assert.Matches(@"^repeat 3 of 3   step 3 of 5: hold   #+\.? (4\.9|5\.0) of 5 s, 0 s left$", hold[7]);
        // What is left at most: a coast-down of 60 s and a rest of 300 s.
        Assert.Matches(@"^6:00 min at most until all is done$", hold[8]);
    }

    [Fact]
    public void What_is_left_counts_every_step_that_is_still_to_come_with_its_warnings()
    {
        string[] rows = Moments.Of(Narrow, meddle: (record, inbox) => StopIn(RigState.Hold, record, inbox))["Hold"];
        // This hold and 60 + 300 s of this repeat; of each of the two after it 10 + 3 + 8 + 3 + 5 + 60 + 300 s. Derived from the procedure's file.
        Assert.Matches(@"^19:0[23] min at most until all is done$", rows[8]);
    }

    [Fact]
    public void The_tightest_interlock_comes_first_with_its_margin()
    {
        string[] rows = OnNarrow.Value["Hold"];
        double[] margins = [.. rows.Where(r => r.Contains(" % ", StringComparison.Ordinal) && r.Contains('#', StringComparison.Ordinal) && r.Contains("..", StringComparison.Ordinal) && !r.StartsWith("repeat", StringComparison.Ordinal))
            .Select(r => double.Parse(r.Split(" % ")[0].Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture))];
        Assert.True(margins.Length >= 4, string.Join('\n', rows));
        Assert.Equal(margins.Order(), margins);
    }

    [Fact]
    public void An_interlock_that_objects_stands_first_with_its_whole_reason_and_the_cause_stays()
    {
        string[] rows = Moments.Of(Narrow, change: ("ambient: 20 degC", "ambient: 20 degC, lid-forced-at: 12 s"))["SafeStop"];
        Assert.Contains("CAUSE: the lid is open: enclosure.lid reads 0, not 1", rows);
        string first = rows.SkipWhile(r => r.Length > 0).Skip(1).First();
        Assert.Contains("OBJECTS", first, StringComparison.Ordinal);
        Assert.StartsWith("lid-", first, StringComparison.Ordinal);
        Assert.DoesNotContain("…", first, StringComparison.Ordinal);
    }

    // The simulated operator looks as soon as it may; the picture before that stays, since after it the rotor counts as standing.
    [Trait("Requirement", "SAF-086")]
    [Fact]
    public void A_rotor_that_was_lost_sight_of_waits_for_a_look_and_the_screen_says_how()
    {
        IReadOnlyDictionary<string, string[]> shown = Moments.Of(Narrow, change: ("ambient: 20 degC", "ambient: 20 degC, tachometer-silent-at: 12 s"));
        Assert.Equal(" LOOK whether it stands, in a light that does not flicker; lid stays shut", shown["Look"][5].TrimEnd());
        Assert.Contains("> o it stands, I looked | m marker | SPACE stop | q quit", shown["Look"]);
        Assert.Equal(" output stopped, the rotor stands", shown["SafeStop"][5].TrimEnd());
    }

    [Fact]
    public void A_refused_act_is_answered_with_the_reason_and_what_comes_before_it()
    {
        string[] rows = Moments.Of(Narrow, meddle: (record, inbox) =>
        {
            if (record.State == RigState.Idle && record.Scan % 100 == 0)
                inbox.Post(CommandKind.Start, CommandSource.Bench);
        })["Idle"];
        Assert.Contains("start refused: nothing is ready to start; arm comes before it", rows);
    }

    [Theory]
    [InlineData("SafeStop", "> r reset | m marker | q quit")]
    [InlineData("Ready", "> s start | SPACE stop | m marker")]
    [InlineData("SpinUp", "> SPACE stop | m marker")]
    public void Only_the_keys_that_do_something_are_offered(string state, string keys) => Assert.Contains(keys, OnNarrow.Value[state]);

    [Fact]
    public void On_a_wide_terminal_the_channels_stand_beside_the_interlocks()
    {
        string[] rows = Moments.Of(Wide)["Hold"];
        string first = rows.SkipWhile(r => r.Length > 0).Skip(1).First();
        Assert.Matches(@"^\S+ +[#.]+ +\d+ %.+rotor\.speed +\d{4}\.\d rpm$", first);
    }

    private static void StopIn(RigState state, in ScanRecord record, Runtime.Scanning.CommandInbox inbox)
    {
        if (record.State == state)
            inbox.Post(CommandKind.Stop, CommandSource.Bench);
    }
}
