using System.Reflection;
using System.Runtime.InteropServices;
using CsCheck;
using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

/// <summary>What no interlock may do, whatever it is shown.</summary>
public class EveryInterlockTests
{
    private static readonly Gen<byte[]> AnyBytes = Gen.Byte.Array[Marshal.SizeOf<ImageEntry>() * Bench.Channels.Length];

    public static TheoryData<string> Kinds() => new(Bench.Plugins.Select(p => p.Kind));

    // A person pressed or may reach in, the rotor is too fast or out of sight, or what would stop it otherwise is not to be relied upon.
    private static readonly string[] Cutting =
    [
        "current-without-power", "energy-ceiling", "failsafe-confirmed", "key-turned", "lid-closed", "lid-locked", "output-follows", "over-speed",
        "power-follows", "speed-plausible", "stop-clear", "tachometer-jump", "tachometer-lost",
    ];

    [Trait("Requirement", "SAF-091")]
    [Fact]
    public void What_a_pulse_alone_may_not_stop_always_cuts_the_power_and_does_so_unless_told_otherwise()
    {
        IInterlockPlugin[] always = [.. Bench.Plugins.Where(p => p.AlwaysCutsPower)];
        Assert.Equal(Cutting, always.Select(p => p.Kind).Order(StringComparer.Ordinal));
        Assert.All(always, p => Assert.Equal(DemandAction.CutPower, p.Action));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_usual_readings_let_it_go_on(string kind) => On(kind).Scan().Proceeds();

    [Trait("Requirement", "SAF-006")]
    [Theory]
    [MemberData(nameof(Kinds))]
    public void An_image_that_nobody_filled_in_trips_it(string kind)
    {
        Bench bench = On(kind);
        bench.Image = default;
        bench.Scan().Objects();
    }

    [Trait("Requirement", "SAF-006")]
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_cause_of_a_bad_reading_trips_it_with_a_sentence_of_its_own(string kind)
    {
        HashSet<string> sentences = [];
        BadCause[] causes = Enum.GetValues<BadCause>();
        foreach (BadCause cause in causes)
            sentences.Add(WithBad(kind, cause));
        Assert.Equal(causes.Length, sentences.Count);
    }

    [Trait("Requirement", "SAF-006")]
    [Theory]
    [MemberData(nameof(Kinds))]
    public void One_bad_channel_of_several_is_enough(string kind)
    {
        IInterlockPlugin plugin = Bench.Plugins.Single(p => p.Kind == kind);
        object options = Bench.GoodOptions(plugin);
        string[] channels = [.. plugin.OptionsType.GetProperties()
            .Where(p => p.GetCustomAttribute<ChannelNameAttribute>() is not null).Select(p => (string)p.GetValue(options)!)];
        Assert.NotEmpty(channels);
        foreach (string channel in channels)
        {
            Bench bench = new(plugin, options);
            Demand demand = bench.Bad(channel, BadCause.Reported).Scan().Objects();
            Assert.Equal(Bench.Index(channel), demand.Channel);
            Assert.Contains(channel.Replace('.', ' ').Replace('-', ' '), bench.Interlock.Explain(demand));
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_cause_that_nobody_knows_trips_it_too(string kind) =>
        Assert.EndsWith("has a reading that cannot be used", WithBad(kind, (BadCause)65436));

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_number_that_is_none_trips_it_although_it_is_called_good(string kind)
    {
        foreach (double none in new[] { double.NaN, double.PositiveInfinity, double.NegativeInfinity, BitConverter.Int64BitsToDouble(0x7FF4_0000_0000_0001) })
        {
            foreach ((double last, double minimum, double maximum) in new[] { (none, 0.0, 1.0), (1.0, none, 1.0), (1.0, 0.0, none) })
            {
                Bench bench = On(kind);
                foreach (Channel channel in Bench.Channels)
                    bench.Spread(channel.Name, last, minimum, maximum);
                Assert.EndsWith("reads as no number", bench.Interlock.Explain(bench.Scan().Objects()));
            }
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Numbers_in_the_wrong_order_prove_nothing(string kind)
    {
        Bench bench = On(kind);
        foreach (Channel channel in Bench.Channels)
            bench.Spread(channel.Name, last: 1, minimum: 2, maximum: 1);
        bench.Scan().Objects();
    }

    [Trait("Requirement", "SAF-006")]
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Whatever_the_image_holds_it_neither_throws_nor_goes_on_with_a_bad_reading(string kind) => AnyBytes.Sample(
        bytes =>
        {
            Bench bench = On(kind);
            Span<ImageEntry> entries = MemoryMarshal.CreateSpan(ref bench.Image[0], InputImage.Capacity);
            MemoryMarshal.Cast<byte, ImageEntry>(bytes).CopyTo(entries);
            Demand demand = bench.Scan();
            Assert.NotEmpty(bench.Interlock.Explain(demand));
            MakeBad(entries, bytes[0]);
            bench.Scan().Objects();
        },
        iter: 2000, threads: 1);

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Any_finite_history_ends_in_a_demand_that_holds_together(string kind) => Gen.Double[-500, 20_000].Array[20].Sample(
        values =>
        {
            Bench bench = On(kind);
            foreach (double value in values)
            {
                foreach (Channel channel in Bench.Channels)
                    bench.Set(channel.Name, value);
                Demand demand = bench.ScanAfter(0.1, ChannelNames.RadioLink, value);
                Assert.Equal(demand.Action == DemandAction.Proceed, demand.Reason == 0);
                Assert.True(double.IsFinite(demand.Margin) && (demand.Action == DemandAction.Proceed ? demand.Margin >= 0 : demand.Margin <= 0));
                Assert.InRange(demand.ShownAt, TimeSpan.Zero, bench.Now);
                Assert.DoesNotContain("no number", bench.Interlock.Explain(demand));
            }
        },
        iter: 500, threads: 1);

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_same_scan_twice_gives_the_same_demand_and_memory(string kind)
    {
        Bench first = On(kind);
        Bench second = On(kind);
        foreach (double value in new[] { 1, 0, 95, 20, 9500.0 })
            Assert.Equal(ScanAll(first, value), ScanAll(second, value));
        Assert.Equal(first.Memory, second.Memory);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_scan_allocates_nothing(string kind)
    {
        Bench bench = On(kind);
        bench.Scan();
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int scan = 0; scan < 1000; scan++)
        {
            bench.Scan();
            bench.Image[scan % Bench.Channels.Length].Quality = scan % 3 == 0 ? Quality.Bad : Quality.Good;
            bench.Image[scan % Bench.Channels.Length].Maximum = scan;
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    private static Bench On(string kind)
    {
        IInterlockPlugin plugin = Bench.Plugins.Single(p => p.Kind == kind);
        return new Bench(plugin, Bench.GoodOptions(plugin));
    }

    private static Demand ScanAll(Bench bench, double value)
    {
        foreach (Channel channel in Bench.Channels)
            bench.Set(channel.Name, value);
        return bench.ScanAfter(0.1, ChannelNames.RadioLink, value);
    }

    private static string WithBad(string kind, BadCause cause)
    {
        Bench bench = On(kind);
        foreach (Channel channel in Bench.Channels)
            bench.Bad(channel.Name, cause);
        Demand demand = bench.Scan().Objects();
        Assert.Equal(bench.Now, demand.ShownAt);
        return bench.Interlock.Explain(demand);
    }

    // Some way of being Bad, chosen by a byte: by quality or by a number that is none.
    private static void MakeBad(Span<ImageEntry> entries, byte way)
    {
        foreach (ref ImageEntry entry in entries)
        {
            if (way % 2 == 0)
                entry.Quality = Quality.Bad;
            else
                entry.Maximum = double.NaN;
        }
    }
}
