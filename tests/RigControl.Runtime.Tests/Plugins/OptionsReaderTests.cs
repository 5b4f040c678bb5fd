namespace RigControl.Runtime.Tests.Plugins;

public class OptionsReaderTests
{
    private enum Way
    {
        StraightOn,
        Back,
    }

    private sealed class Options
    {
        [Meaning("Where it trips."), Quantity("degC", -20, 300)]
        public double UpperLimit { get; set; } = double.NaN;

        [Meaning("How long."), Quantity("s", 0, 10)]
        public double HoldTime { get; init; } = 2.5;

        [Meaning("How many."), Count(1, 9)]
        public int PulsesPerTurn { get; set; } = 2;

        [Meaning("What is looked at."), ChannelName]
        public string Channel { get; set; } = "";

        [Meaning("Which way.")]
        public Way Way { get; set; } = Way.StraightOn;

        [Meaning("Whether upside down.")]
        public bool Inverted { get; set; }

        [Meaning("Which port.")]
        public string Port { get; set; } = "none";

        public double WithoutMeaning { get; set; } = 7;

        [Meaning("Cannot be written.")]
        public double Derived => UpperLimit * 2;
    }

    private static readonly IReadOnlyList<OptionDescription> Described = OptionsReader.Describe(typeof(Options));

    [Fact]
    public void Options_are_described_in_the_order_of_the_class_under_kebab_case_names() =>
        Assert.Equal(["upper-limit", "hold-time", "pulses-per-turn", "channel", "way", "inverted", "port"], Described.Select(o => o.Name));

    [Fact]
    public void A_quantity_tells_its_unit_range_and_default() =>
        Same(new OptionDescription("hold-time", "How long.", OptionKind.Quantity, "s", 0, 10, 2.5, []), Of("hold-time"));

    [Fact]
    public void A_limit_that_starts_as_not_a_number_has_no_default_and_is_required() => Assert.Null(Of("upper-limit").Default);

    [Fact]
    public void A_channel_that_starts_empty_is_required()
    {
        Assert.Equal(OptionKind.Channel, Of("channel").Kind);
        Assert.Null(Of("channel").Default);
    }

    [Fact]
    public void A_count_tells_its_range_and_default() =>
        Same(new OptionDescription("pulses-per-turn", "How many.", OptionKind.Count, null, 1, 9, 2L, []), Of("pulses-per-turn"));

    [Fact]
    public void A_choice_lists_its_words() =>
        Same(new OptionDescription("way", "Which way.", OptionKind.Choice, null, 0, 0, "straight-on", ["straight-on", "back"]), Of("way"));

    [Fact]
    public void A_switch_and_a_text_are_told_apart()
    {
        Assert.Equal((OptionKind.Switch, (object)false), (Of("inverted").Kind, Of("inverted").Default!));
        Assert.Equal((OptionKind.Text, (object)"none"), (Of("port").Kind, Of("port").Default!));
    }

    [Fact]
    public void Written_options_reach_the_plugin_and_the_rest_keeps_its_default()
    {
        Options filled = (Options)OptionsReader.Fill(typeof(Options), new Dictionary<string, object>
        {
            ["upper-limit"] = 80.0, ["hold-time"] = 1.25, ["pulses-per-turn"] = 7L, ["way"] = "back", ["inverted"] = true, ["channel"] = "motor.temperature",
        });

        Assert.Equal((80.0, 1.25, 7, Way.Back, true), (filled.UpperLimit, filled.HoldTime, filled.PulsesPerTurn, filled.Way, filled.Inverted));
        Assert.Equal(("motor.temperature", "none"), (filled.Channel, filled.Port));
    }

    [Fact]
    public void The_record_gets_every_option_in_force_as_text()
    {
        IReadOnlyDictionary<string, string> resolved = OptionsReader.Resolved(new Options { UpperLimit = 80.5 });

        Assert.Equal(7, resolved.Count);
        Assert.Equal(("80.5", "2.5", "2"), (resolved["upper-limit"], resolved["hold-time"], resolved["pulses-per-turn"]));
    }

    private static OptionDescription Of(string name) => Assert.Single(Described, o => o.Name == name);

    private static void Same(OptionDescription expected, OptionDescription actual)
    {
        Assert.Equal(expected.Choices, actual.Choices);
        Assert.Equal(expected, actual with { Choices = expected.Choices });
    }
}
