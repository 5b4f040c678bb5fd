using System.Diagnostics;
using System.Text.Json;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.WholeRuns;

/// <summary><c>watch</c> as a user runs it.</summary>
public sealed class WatchCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task One_look_shows_a_running_rig_with_state_tightest_interlock_and_the_age_of_its_link()
    {
        using Support.Mosquitto broker = new(_folder);
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#");
        RigProgram program = new(_folder);
        using Process process = program.Begin(RigProgram.LongHold, broker.Section, "5");
        await Until.True(() => all.Of(program.Topics.State).Any(s => s.Contains("\"Hold\"", StringComparison.Ordinal)), "the hold");
        (int code, string output, string errors) = await RigProgram.End(program.Start("watch", "--once", "--json", "--rig", program.RigFile(broker.Section)));
        Assert.True(code == 0, errors);
        JsonElement rig = RigProgram.Json(output).GetProperty("rigs")[0];
        Assert.Equal(("simulated-box", "Hold", "online", true), (Text(rig, "rig"), Text(rig, "state"), Text(rig, "status"), rig.GetProperty("simulated").GetBoolean()));
        Assert.NotEqual("", Text(rig.GetProperty("tightest"), "interlock"));
        Assert.Equal(JsonValueKind.Number, rig.GetProperty("age").ValueKind);
        (_, string plain, _) = await RigProgram.End(program.Start("watch", "--once", "--site", "workshop", "--broker", $"127.0.0.1:{broker.Port}"));
        Assert.StartsWith("simulated-box (simulated): HOLD; tightest ", plain);
        Assert.Equal(0, broker.Publish(program.Topics.Stop, Orders.Stop()));
        Assert.Equal(4, (await RigProgram.End(process)).Code);
    }

    [Fact]
    public async Task A_broker_that_is_not_there_ends_one_look_with_a_sentence()
    {
        (int code, string output, string errors) = await RigProgram.End(new RigProgram(_folder).Start("watch", "--once", "--broker", $"127.0.0.1:{Ports.Free()}"));
        Assert.Equal((5, ""), (code, output));
        Assert.Contains("nothing listens", errors);
    }

    [Theory]
    [InlineData("--site", "Work Shop", "is no site")]
    [InlineData("--broker", "a:b:c", "is no broker")]
    [InlineData("--broker", "host:0", "is no broker")]
    public async Task A_wrong_option_is_explained(string option, string value, string said)
    {
        (int code, _, string errors) = await RigProgram.End(new RigProgram(_folder).Start("watch", "--once", option, value));
        Assert.Equal(2, code);
        Assert.Contains(said, errors);
    }

    public void Dispose() => _folder.Dispose();

    private static string Text(JsonElement element, string name) => element.GetProperty(name).GetString()!;
}
