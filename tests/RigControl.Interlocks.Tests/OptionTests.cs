using System.Reflection;
using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

/// <summary>What holds for every interlock of the assembly, by its options and its plugin.</summary>
public class OptionTests
{
    [Fact]
    public void Every_interlock_has_tests_of_its_own()
    {
        HashSet<string> tests = [.. typeof(OptionTests).Assembly.GetTypes().Select(t => t.Name)];
        Assert.True(Bench.Plugins.Length > 20, $"only {Bench.Plugins.Length} interlocks were found");
        Assert.All(Bench.Plugins, p => Assert.Contains(p.GetType().Name.Replace("Plugin", "Tests"), tests));
    }

    [Fact]
    public void The_assembly_says_which_contract_it_was_built_for()
    {
        RigPluginAttribute plugin = typeof(LidClosedPlugin).Assembly.GetCustomAttribute<RigPluginAttribute>()!;
        Assert.Equal((ContractVersion.Major, ContractVersion.Minor), (plugin.Major, plugin.Minor));
    }

    [Fact]
    public void Each_serves_a_requirement_of_its_own()
    {
        string[] numbers = [.. Bench.Plugins.Select(p => p.Requirement)];
        Assert.Equal(numbers.Length, numbers.Distinct().Count());
        Assert.All(numbers, n => Assert.Matches(@"^SAF-\d{3}$", n));
    }

    [Fact]
    public void Each_cuts_the_power_unless_the_article_is_better_braked_to_a_stop()
    {
        string[] braked = ["operator-present", "recorder-behind"];
        Assert.All(Bench.Plugins, p => Assert.Equal(braked.Contains(p.Kind) ? DemandAction.StopOutput : DemandAction.CutPower, p.Action));
    }

    [Fact]
    public void Each_waits_for_the_operator_unless_somebody_has_to_look_at_the_contactor()
    {
        string[] looked = ["current-without-power", "power-follows"];
        Assert.All(Bench.Plugins, p => Assert.Equal(looked.Contains(p.Kind) ? ResetPolicy.Restart : ResetPolicy.Operator, p.Reset));
    }

    [Fact]
    public void Every_option_says_what_it_means_and_what_kind_it_is() => Assert.All(AllOptions(), property =>
    {
        Assert.NotNull(property.GetCustomAttribute<MeaningAttribute>());
        Type[] kinds = [typeof(QuantityAttribute), typeof(CountAttribute), typeof(ChannelNameAttribute)];
        Assert.Single(kinds, k => property.GetCustomAttribute(k) is not null);
    });

    [Fact]
    public void No_limit_has_a_default_that_somebody_invented()
    {
        // Times of grace, and how a fault is known: none of them limits what the rig does.
        string[] mayHaveDefault = ["DiscrepancyTime", "For", "Allowance", "Band"];
        foreach (PropertyInfo property in AllOptions().Where(p => p.PropertyType == typeof(double)))
        {
            double initial = (double)property.GetValue(Activator.CreateInstance(property.DeclaringType!))!;
            Assert.Equal(!mayHaveDefault.Contains(property.Name), double.IsNaN(initial));
        }

        Assert.All(AllOptions().Where(p => p.PropertyType == typeof(int?)), p => Assert.Null(p.GetValue(Activator.CreateInstance(p.DeclaringType!))));
    }

    [Theory]
    [InlineData("temperature-ceiling", "ceiling is missing; write 1 degC to 500 degC; rise is missing; write 0.1 K to 200 K; window is missing; write 0.05 s to 600 s")]
    [InlineData("over-speed", "limit is missing; write 1 rpm to 200000 rpm")]
    [InlineData("over-current", "limit is missing; write 0.01 A to 1000 A; peak is missing; write 0.01 A to 1000 A")]
    [InlineData("under-voltage", "limit is missing; write 0.1 V to 100 V")]
    [InlineData("stale-reading", "channel is missing; write the name of a channel; maximum-age is missing; write 0.001 s to 60 s")]
    [InlineData("frozen-reading", "channel is missing; write the name of a channel; samples is missing; write 2 to 1000000")]
    [InlineData("energy-ceiling", "inertia is missing; write 1E-09 kg.m2 to 10 kg.m2; limit is missing; write 0.001 J to 1000000 J")]
    [InlineData("scan-late", "limit is missing; write 0.0001 s to 1 s")]
    public void A_limit_that_is_left_out_is_asked_for(string kind, string message)
    {
        IInterlockPlugin plugin = Bench.Plugins.Single(p => p.Kind == kind);
        object options = Activator.CreateInstance(plugin.OptionsType)!;
        Assert.Equal(message, Assert.Throws<OptionException>(() => new Bench(plugin, options)).Message);
    }

    [Fact]
    public void Every_quantity_out_of_its_range_is_refused_by_name()
    {
        foreach (IInterlockPlugin plugin in Bench.Plugins)
        {
            foreach (PropertyInfo property in plugin.OptionsType.GetProperties().Where(p => p.PropertyType == typeof(double)))
            {
                QuantityAttribute range = property.GetCustomAttribute<QuantityAttribute>()!;
                foreach (double wrong in new[] { Math.BitDecrement(range.Minimum), Math.BitIncrement(range.Maximum), double.PositiveInfinity, double.NegativeInfinity })
                {
                    object options = Bench.GoodOptions(plugin);
                    property.SetValue(options, wrong);
                    string message = Assert.Throws<OptionException>(() => new Bench(plugin, options)).Message;
                    Assert.StartsWith(OptionCheck.NameOf(property) + " is ", message);
                }
            }
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(1_000_001)]
    public void A_number_of_readings_out_of_its_range_is_refused(int samples)
    {
        FrozenReadingOptions options = new() { Channel = ChannelNames.BatteryVoltage, Samples = samples };
        Assert.Equal($"samples is {samples}; write 2 to 1000000",
            Assert.Throws<OptionException>(() => new Bench(new FrozenReadingPlugin(), options)).Message);
    }

    [Fact]
    public void A_rise_written_as_a_temperature_instead_of_a_difference_is_found_out()
    {
        TemperatureCeilingOptions options = new() { Ceiling = 80, Window = 1, Rise = 10 + 273.15 };
        Assert.Equal("rise is 283.15 K; write 0.1 K to 200 K",
            Assert.Throws<OptionException>(() => new Bench(new TemperatureCeilingPlugin(), options)).Message);
    }

    [Fact]
    public void A_channel_that_no_device_supplies_is_named_with_those_there_are()
    {
        StopClearOptions options = new() { Channel = "stop.claer" };
        string message = Assert.Throws<OptionException>(() => new Bench(new StopClearPlugin(), options)).Message;
        Assert.StartsWith("no device supplies the channel stop.claer; there are enclosure.lid, ", message);
    }

    [Fact]
    public void A_channel_in_another_unit_is_refused()
    {
        OverCurrentOptions options = new() { Channel = ChannelNames.BatteryVoltage, Limit = 60, Peak = 100 };
        Assert.Equal("the channel battery.voltage is in V, but over-current reckons in A",
            Assert.Throws<OptionException>(() => new Bench(new OverCurrentPlugin(), options)).Message);
    }

    private static IEnumerable<PropertyInfo> AllOptions() => Bench.Plugins.SelectMany(p => p.OptionsType.GetProperties());
}
