using RigControl.Documents.Tests.Support;
using RigControl.Model.Rig;

namespace RigControl.Documents.Tests.Rigs;

/// <summary>What a rig file lists is what is opened, with options that the plugins understand.</summary>
public class ReadRigTests
{
    [Fact]
    public void The_head_of_a_rig_is_read_as_written()
    {
        RigDefinition rig = Read(Samples.Rig);
        Assert.Equal("workshop-box", rig.Name);
        Assert.Equal(TimeSpan.FromMilliseconds(5), rig.ScanPeriod);
        Assert.Equal((600.0, "test sheet of the box"), (rig.EnclosureRating!.Value, rig.EnclosureSource));
        Assert.Equal((60, TimeSpan.FromSeconds(1)), (rig.StandstillSpeed, rig.StandstillTime));
    }

    [Fact]
    public void A_rig_may_have_an_enclosure_that_nobody_has_rated() =>
        Assert.Null(Read(Samples.Rig.Replace("enclosure: { rating: 600 J, source: \"test sheet of the box\" }\n", "")).EnclosureRating);

    [Fact]
    public void Written_options_are_converted_and_the_others_take_their_defaults()
    {
        DeviceDefinition device = Assert.Single(Read(Samples.Rig).Devices);
        Assert.Equal(("board", "rig-board"), (device.Id, device.Plugin));
        Assert.Equal("ttyUSB0", device.Options["port"]);
        Assert.Equal(5L, device.Options["retries"]);
        Assert.Equal(true, device.Options["strict"]);
        Assert.Equal("rising", device.Options["edge"]);
        Assert.Equal("rotor.speed", device.Channels["speed"]);
    }

    [Fact]
    public void A_default_has_the_type_that_a_written_value_would_have()
    {
        RigDefinition rig = Read(Samples.Rig.Replace(", retries: 5", ""));
        Assert.Equal(3L, rig.Devices[0].Options["retries"]);
        Assert.Equal(0.1, rig.Interlocks[0].Options["discrepancy-time"]);
    }

    [Theory]
    [InlineData("ceiling: 80 degC", "ceiling: 176 degF", "ceiling", 80)]
    [InlineData("ceiling: 80 degC", "ceiling: 353.15 K", "ceiling", 80)]
    [InlineData("window: 2 s", "window: 500 ms", "window", 0.5)]
    [InlineData("rise: 20 K", "rise: 20 K", "rise", 20)]
    public void A_quantity_is_handed_over_in_the_unit_of_its_option(string before, string after, string option, double value) =>
        Assert.Equal(value, (double)Read(Samples.Rig.Replace(before, after)).Interlocks[1].Options[option], 1e-9);

    [Fact]
    public void A_switch_and_a_choice_are_read()
    {
        DeviceDefinition device = Read(Samples.Rig.Replace("retries: 5", "strict: no, edge: falling")).Devices[0];
        Assert.Equal(false, device.Options["strict"]);
        Assert.Equal("falling", device.Options["edge"]);
    }

    [Fact]
    public void An_interlock_asks_for_what_the_file_says_and_otherwise_for_what_its_plugin_says()
    {
        RigDefinition rig = Read(Samples.Rig);
        Assert.Equal((null, null, InterlockScope.EveryStep), (rig.Interlocks[0].Action, rig.Interlocks[0].Reset, rig.Interlocks[0].Scope));
        Assert.Equal((DemandAction.StopOutput, ResetPolicy.Restart, InterlockScope.NamedSteps),
            (rig.Interlocks[1].Action, rig.Interlocks[1].Reset, rig.Interlocks[1].Scope));
    }

    [Fact]
    public void A_plugin_may_use_a_unit_of_its_own()
    {
        PluginKinds kinds = Samples.Kinds with
        {
            Devices = new Dictionary<string, PluginKind>
            {
                ["rig-board"] = new("rig-board", "A board.", [new("port", "Rate.", OptionKind.Quantity, "K/s", 0, 9, null, []), new("retries", "Count.", OptionKind.Count, null, 0, 9, 1, [])]),
            },
        };
        Reading<RigDefinition> reading = DocumentReader.ReadRig(Samples.Rig.Replace("port: ttyUSB0", "port: 3 K/s"), "f", kinds);
        Assert.Empty(reading.Problems);
        Assert.Equal(3.0, reading.Value!.Devices[0].Options["port"]);
        Assert.Equal("`3 K` has a unit of the wrong kind",
            Assert.Single(DocumentReader.ReadRig(Samples.Rig.Replace("port: ttyUSB0", "port: 3 K"), "f", kinds).Problems).What);
    }

    [Fact]
    public void A_rig_without_any_plugin_is_told_so()
    {
        var none = new PluginKinds(new Dictionary<string, PluginKind>(), new Dictionary<string, PluginKind>());
        Assert.Contains(DocumentReader.ReadRig(Samples.Rig, "f", none).Problems, p => p.Remedy == "install one; there is no device plugin at all");
    }

    [Theory]
    [InlineData(15, 0)]
    [InlineData(16, 1)]
    public void Fifteen_devices_fit_beside_the_host(int devices, int problems)
    {
        string list = string.Join(", ", Enumerable.Range(0, devices).Select(i => $"{{ id: d{i}, plugin: bench }}"));
        string text = $"rig: r\nscan: 10 Hz\nstandstill: {{ below: 1 rpm, for: 1 s }}\ndevices: [{list}]\ninterlocks: []";
        Assert.Equal(problems, DocumentReader.ReadRig(text, "f", Samples.Kinds).Problems.Count);
    }

    private static RigDefinition Read(string text)
    {
        Reading<RigDefinition> reading = DocumentReader.ReadRig(text, "f", Samples.Kinds);
        Assert.Empty(reading.Problems);
        return reading.Value!;
    }
}
