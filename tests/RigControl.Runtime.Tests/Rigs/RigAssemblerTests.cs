using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Rigs;

public class RigAssemblerTests
{
    [Fact]
    public void Every_device_that_does_not_open_is_named_and_those_that_did_are_closed_again()
    {
        ToyDevice open = new("x");
        AssemblyException refused = Refused(new TestRig
        {
            Devices = { ["a"] = _ => open, ["b"] = _ => throw new DeviceException("the port is not there"), ["c"] = _ => throw new InvalidOperationException("oops") },
        });

        Assert.True(refused.IsDevice);
        Assert.Equal(["device b does not open: the port is not there", "device c does not open: oops"], refused.Reasons);
        Assert.True(open.Disposed);
    }

    [Fact]
    public void A_device_that_cannot_be_closed_does_not_hide_why_the_rig_was_not_put_together()
    {
        ToyDevice other = new("y");
        AssemblyException refused = Refused(new TestRig
        {
            Devices =
            {
                ["a"] = _ => new ToyDevice("x") { OnDispose = () => throw new InvalidOperationException("stuck") },
                ["b"] = _ => other,
                ["c"] = _ => throw new DeviceException("the port is not there"),
            },
        });

        Assert.Equal(["device c does not open: the port is not there"], refused.Reasons);
        Assert.True(other.Disposed);
    }

    [Theory]
    [InlineData("channels")]
    [InlineData("traits")]
    [InlineData("period")]
    [InlineData("identity")]
    public void A_device_that_fails_when_it_is_asked_what_it_is_is_named_and_all_are_closed_again(string asked)
    {
        ToyDevice other = new("y");
        AssemblyException refused = Refused(new TestRig
        {
            Devices = { ["a"] = _ => other, ["b"] = _ => new ToyDevice("x") { OnAsked = FailsAt } },
        });

        Assert.True(refused.IsDevice);
        Assert.Equal(["device b cannot say what it is: oops"], refused.Reasons);
        Assert.True(other.Disposed);

        void FailsAt(string what)
        {
            if (what == asked)
                throw new InvalidOperationException("oops");
        }
    }

    [Fact]
    public void A_kind_of_device_that_is_not_installed_is_named()
    {
        TestRig rig = new();
        RigAssembler assembler = new(PluginCatalog.Of("none", [], []), TimeProvider.System);

        Assert.Equal(
            ["device bench does not open: no installed plugin makes simulated-rig"],
            Assert.Throws<AssemblyException>(() => assembler.Assemble(rig.Documents, 1)).Reasons);
    }

    [Fact]
    public void An_actuator_that_would_hold_its_output_without_the_host_is_refused()
    {
        AssemblyException refused = Refused(new TestRig
        {
            Devices = { ["a"] = _ => new ToyDevice("x") { Traits = DeviceTraits.DrivesOutput | DeviceTraits.HoldsLastOutput } },
        });

        Assert.True(refused.IsDevice);
        Assert.Contains("device a would hold its last output if this program died", Assert.Single(refused.Reasons), StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-087")]
    [Fact]
    public void A_rig_with_an_arm_key_that_nothing_asks_for_is_refused_and_no_other_name_hides_it()
    {
        Dictionary<string, Func<DeviceContext, IDevice>> board = new() { ["a"] = _ => new ToyDevice(ChannelNames.ArmKey) };

        foreach (TestRig rig in (TestRig[])[new() { Devices = board }, new() { Devices = board, Renamed = { ["a"] = new() { [ChannelNames.ArmKey] = "other" } } }])
        {
            Assert.Equal(
                "the rig has an arm key, and nothing asks for it before it is armed; add an interlock `plugin: key-turned` that counts in every step", Assert.Single(Refused(rig).Reasons));
        }

        using AssembledRig asked = new TestRig { Devices = board, Interlocks = { ["key-turned"] = _ => new ToyInterlock() } }.Assemble();
        Assert.Contains(asked.InterlockIdentities, i => i.Plugin == "key-turned");
    }

    [Fact]
    public void Two_devices_that_supply_the_same_channel_are_told_apart_by_a_new_name()
    {
        Dictionary<string, Func<DeviceContext, IDevice>> twins = new() { ["a"] = _ => new ToyDevice("x"), ["b"] = _ => new ToyDevice("x") };

        Assert.Contains("device b supplies the channel x", Assert.Single(Refused(new TestRig { Devices = twins }).Reasons), StringComparison.Ordinal);
        using AssembledRig rig = new TestRig { Devices = twins, Renamed = { ["b"] = new() { ["x"] = "y" } } }.Assemble();
        Assert.Equal([0, 1], new[] { "x", "y" }.Select(n => rig.Channels.Single(c => c.Name == n).Device));
    }

    [Fact]
    public void A_name_for_a_channel_that_the_device_does_not_have_is_refused_with_those_it_has()
    {
        AssemblyException refused = Refused(new TestRig
        {
            Devices = { ["a"] = _ => new ToyDevice("x", "y") }, Renamed = { ["a"] = new() { ["z"] = "other" } },
        });

        Assert.Equal("device a has no channel z to map; it has x, y", Assert.Single(refused.Reasons));
    }

    [Fact]
    public void Every_interlock_that_cannot_be_made_is_named_whatever_it_throws()
    {
        AssemblyException refused = Refused(new TestRig
        {
            Interlocks = { ["a"] = c => throw new OptionException("the limit is missing"), ["b"] = c => throw new InvalidOperationException("oops") },
        });

        Assert.False(refused.IsDevice);
        Assert.Equal(["interlock a: the limit is missing", "interlock b: oops"], refused.Reasons);
    }

    [Fact]
    public void More_devices_than_one_rig_can_have_are_refused_in_a_sentence()
    {
        Dictionary<string, Func<DeviceContext, IDevice>> many = Enumerable.Range(0, 16).ToDictionary(i => $"d{i:00}", i => (Func<DeviceContext, IDevice>)(_ => new ToyDevice("x" + i)));

        Assert.Contains("there are 17 devices, but 15 is the most that one rig can have", Refused(new TestRig { Devices = many }).Reasons);
    }

    [Fact]
    public void A_rig_counts_as_simulated_only_when_every_device_says_so()
    {
        using AssembledRig simulated = new TestRig { Devices = { ["a"] = _ => new ToyDevice("x") } }.Assemble();
        using AssembledRig real = new TestRig { Devices = { ["a"] = _ => new ToyDevice("x") { Traits = DeviceTraits.NeverBlocks } } }.Assemble();

        Assert.True(simulated.Simulated);
        Assert.False(real.Simulated);
    }

    [Fact]
    public void The_host_tells_what_it_knows_as_channels_like_any_other()
    {
        using AssembledRig rig = new TestRig { Devices = { ["a"] = _ => new ToyDevice("x") } }.Assemble();

        Assert.Equal(
            [ChannelNames.FailsafeConfirmed, ChannelNames.OperatorPresent, ChannelNames.RecorderBacklog, ChannelNames.ScanLateness, ChannelNames.LeftAtRest, "device.a.health", "device.bench.health"],
            rig.Channels.Where(c => c.Device == 2).Select(c => c.Name));
    }

    [Fact]
    public void The_record_names_each_interlock_with_its_options_and_each_plugin_once()
    {
        using AssembledRig rig = new TestRig().Assemble();

        Assert.Equal(["lid-closed", "stop-clear", "failsafe-confirmed", "over-speed"], rig.InterlockIdentities.Select(i => i.Id));
        Assert.Equal("6000", rig.InterlockIdentities[3].Options["limit"]);
        Assert.Equal("test", Assert.Single(rig.PluginIdentities).Assembly);
    }

    private static AssemblyException Refused(TestRig rig) => Assert.Throws<AssemblyException>(() => rig.Assemble());
}
