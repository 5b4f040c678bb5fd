using RigControl.Cli.Comparing;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Cli.Tests.Comparing;

/// <summary>What besides the change was not the same on both sides is told, and nothing that was.</summary>
public sealed class ConditionReaderTests : IDisposable
{
    private static readonly string[] Channels = [ChannelNames.BatteryVoltage, ChannelNames.AmbientTemperature, ChannelNames.MotorTemperature];

    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-conditions-").FullName;
    private readonly LogbookFile _book;
    private int _made;

    public ConditionReaderTests() => _book = LogbookFile.Open(Path.Combine(_folder, "logbook.sqlite"));

    public void Dispose()
    {
        _book.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public void Between_runs_that_are_alike_and_interleaved_there_is_nothing_to_mind()
    {
        RunRecord[] made = [Made(), Made(), Made(), Made()];
        Assert.Empty(Differences([made[0], made[3]], [made[1], made[2]]));
    }

    [Fact]
    public void Another_firmware_is_told_with_both_versions() =>
        Assert.Equal(["devices or their firmware differ: board rig-board 1.2.0 77 and board rig-board 1.3.0 77"], Single(Made(), Made(firmware: "1.3.0")));

    [Theory]
    [InlineData(12.6, 12.5)]
    [InlineData(12.6, 12.3, "the pack began at 12.6 V on one side and 12.3 V on the other")]
    public void A_pack_that_began_otherwise_is_told_from_one_percent_on(double first, double second, params string[] told) =>
        Assert.Equal(told, Single(Made(volts: first), Made(volts: second)));

    [Theory]
    [InlineData(20, 21.9)]
    [InlineData(20, 24, "the air was at 20.0 degC on one side and 24.0 degC on the other")]
    public void Air_of_another_temperature_is_told_from_two_kelvin_on(double first, double second, params string[] told) =>
        Assert.Equal(told, Single(Made(ambient: first), Made(ambient: second)));

    [Fact]
    public void A_motor_that_was_warm_already_is_told() =>
        Assert.Equal(["the motor began at 20.0 degC on one side and 45.0 degC on the other"], Single(Made(), Made(motor: 45)));

    [Fact]
    public void Another_enclosure_and_another_plugin_are_told() => Assert.Equal(
        ["the rig files differ in enclosure ({ rating: 400 J } against { rating: 200 J })", "plugins differ: RigControl.Interlocks 0.1.0 aa and RigControl.Interlocks 0.1.0 bb"],
        Single(Made(), Made(enclosure: "{ rating: 200 J }", digest: "bb")));

    [Fact]
    public void One_side_made_before_the_other_is_told() =>
        Assert.StartsWith("all runs of one side were made before all of the other", Assert.Single(Differences([Made(), Made()], [Made(), Made()])), StringComparison.Ordinal);

    // Of one run on each side it is always told that a single one says little; the rest is what is asked for.
    private IEnumerable<string> Single(RunRecord first, RunRecord second)
    {
        IReadOnlyList<string> all = Differences([first], [second]);
        Assert.StartsWith("one run on each side", all[^1], StringComparison.Ordinal);
        return all.SkipLast(1);
    }

    private IReadOnlyList<string> Differences(RunRecord[] first, RunRecord[] second) =>
        ConditionReader.Differences(_book, new RunGroup("a", first), new RunGroup("b", second));

    private RunRecord Made(double volts = 12.6, double ambient = 20, double motor = 20, string firmware = "1.2.0", string enclosure = "{ rating: 400 J }", string digest = "aa")
    {
        RunHeader header = new()
        {
            Run = $"run{_made:d3}", StartedAt = DateTimeOffset.UnixEpoch.AddHours(_made++), Simulated = false, Seed = 0, Operator = "school workshop", Software = "0.1.0",
            Procedure = new("spin", "procedure: spin\n"), Rig = new("box", $"rig: box\nenclosure: {enclosure}\n"), Article = new("disc-180", "article: disc-180\n"),
            Plugins = [new("RigControl.Interlocks", "0.1.0", digest)], Interlocks = [],
            Devices = [new("board", "rig-board", false, new Dictionary<string, string> { ["firmware"] = firmware, ["serial"] = "77" })],
            Channels = [.. Channels.Select((name, i) => new Channel((ushort)i, name, 0, new ChannelDeclaration { Name = name, Unit = i == 0 ? "V" : "degC", Minimum = -40, Maximum = 200, Period = TimeSpan.FromMilliseconds(10), MaximumAge = TimeSpan.FromMilliseconds(50) }))],
        };
        using (IRunRecorder recorder = _book.Begin(header))
        {
            RecordChunk chunk = new(1);
            // What is read first may be no reading yet.
            chunk.Devices[0].Add([new Sample(0, Quality.Bad, TimeSpan.Zero, 0), .. new[] { volts, ambient, motor }.Select((v, i) => new Sample((ushort)i, Quality.Good, TimeSpan.FromMilliseconds(5), v))]);
            recorder.Append(chunk);
            recorder.Finish(new RunEnd(RunOutcome.Completed, header.StartedAt, null), []);
        }

        return RunRecord.Read(_book, header.Run);
    }
}
