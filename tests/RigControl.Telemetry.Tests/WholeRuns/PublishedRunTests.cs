using System.Diagnostics;
using System.Text.Json;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.WholeRuns;

/// <summary>Runs of the real program, read by the distribution's client at the distribution's broker.</summary>
public sealed class PublishedRunTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task A_whole_run_is_published_message_by_message_as_the_schemas_and_the_logbook_say()
    {
        using Support.Mosquitto broker = new(_folder);
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#");
        RigProgram program = new(_folder);
        (int code, string output, string errors) = await RigProgram.End(program.Begin(RigProgram.ShortHold, broker.Section, "5"));
        Assert.True(code == 0, errors);
        await Until.True(() => all.Of(program.Topics.Status).Any(s => s.Contains("\"offline\"", StringComparison.Ordinal)), "the good-bye");
        foreach ((_, string topic, string payload) in all.Messages)
            Schemas.Check(program.Topics, topic, payload);
        JsonElement run = RigProgram.Json(output);
        JsonElement[] events = [.. all.Of(program.Topics.Event).Select(RigProgram.Json)];
        string id = run.GetProperty("run").GetString()!;
        Assert.Equal(Enumerable.Range(1, events.Length).Select(i => $"{id}-{i}"), events.Select(e => e.GetProperty("id").GetString()));
        Assert.Equal(States(run.GetProperty("states")), events.Where(e => e.GetProperty("type").GetString() == "rigcontrol.state-entered.v1").Select(e => e.GetProperty("subject").GetString()));
        JsonElement figure = RigProgram.Json(Assert.Single(all.Of(program.Topics.Figure)));
        Assert.Equal("completed", figure.GetProperty("outcome").GetString());
        Assert.Equal(run.GetProperty("figures")[0].GetProperty("value").GetDouble(), figure.GetProperty("figures")[0].GetProperty("value").GetDouble());
        Assert.True(all.Of(program.Topics.Data).Any() && all.Of(program.Topics.Heartbeat).Any());
        Assert.Equal(["online", "offline"], all.Of(program.Topics.Status).Select(s => RigProgram.Json(s).GetProperty("status").GetString()).Where(s => s != "starting").Distinct());
    }

    [Fact]
    public async Task The_embedded_broker_carries_a_whole_run_to_another_program_s_client_up_to_the_good_bye()
    {
        Assert.SkipUnless(Support.Mosquitto.Installed, "mosquitto's clients are not installed");
        int port = Ports.Free();
        RigProgram program = new(_folder);
        using Process process = program.Begin(RigProgram.ShortHold, $"{{ site: workshop, port: {port} }}", "2");
        await (await Reader.At(port, "probe")).DisposeAsync();
        using Support.Mosquitto.Client client = new();
        Support.Mosquitto.Heard all = client.Subscribe(port, "rigcontrol/#");
        (int code, string output, string errors) = await RigProgram.End(process);
        Assert.True(code == 0, errors);
        await Until.True(() => all.Of(program.Topics.Status).Any(s => s.Contains("\"offline\"", StringComparison.Ordinal)), "the good-bye");
        foreach ((_, string topic, string payload) in all.Messages)
            Schemas.Check(program.Topics, topic, payload);
        string id = RigProgram.Json(output).GetProperty("run").GetString()!;
        int[] numbers = [.. all.Of(program.Topics.Event).Select(e => Number(e, id))];
        Assert.Equal(Enumerable.Range(numbers[0], numbers.Length), numbers);
        Assert.Contains("left-at-rest", all.Of(program.Topics.Event).Last());
        string[] every = ["status", "birth", "state", "data", "event", "figure", "heartbeat"];
        Assert.All(every, kind => Assert.NotEmpty(all.Of($"{program.Topics.Root}/{kind}")));
    }

    [Fact]
    public async Task A_broker_killed_and_restarted_in_the_middle_of_a_run_costs_no_event_and_not_their_order()
    {
        using Support.Mosquitto broker = new(_folder);
        // A broker forgets what comes while nobody reads: the way to it opens again once the reader is back.
        using Relay way = new(broker.Port);
        Support.Mosquitto.Heard before = broker.Subscribe("rigcontrol/#");
        RigProgram program = new(_folder);
        using Process process = program.Begin(RigProgram.ShortHold, $"{{ site: workshop, broker: 127.0.0.1, port: {way.Port} }}", "2");
        await Until.True(() => before.Of(program.Topics.State).Any(s => s.Contains("\"SpinUp\"", StringComparison.Ordinal)), "the spin-up");
        broker.Kill();
        way.Close();
        broker.Start();
        Support.Mosquitto.Heard after = broker.Subscribe("#");
        await Until.True(() => { broker.Publish("probe", "x"); return after.Of("probe").Any(); }, "the reader at the new broker");
        way.Open();
        (int code, string output, string errors) = await RigProgram.End(process);
        Assert.True(code == 0, errors);
        await Until.True(() => after.Of(program.Topics.Figure).Any(), "the figures");
        string id = RigProgram.Json(output).GetProperty("run").GetString()!;
        // The first reader finds its way to the new broker by itself, some time later: each is in order, and together they have all.
        int[] first = [.. before.Of(program.Topics.Event).Select(e => Number(e, id)).Distinct()];
        int[] second = [.. after.Of(program.Topics.Event).Select(e => Number(e, id)).Distinct()];
        Assert.Equal(first.Order(), first);
        Assert.Equal(Enumerable.Range(second[0], second[^1] - second[0] + 1), second);
        Assert.Equal(Enumerable.Range(1, second[^1]), first.Union(second).Order());
        Assert.Contains("left-at-rest", after.Of(program.Topics.Event).Last());
    }

    [Fact]
    [Trait("Requirement", "SAF-071")]
    public async Task A_stop_sent_with_another_program_s_client_ends_a_run_in_safe_stop_and_the_record_says_who()
    {
        using Support.Mosquitto broker = new(_folder);
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#");
        RigProgram program = new(_folder);
        using Process process = program.Begin(RigProgram.LongHold, broker.Section, "5");
        await Until.True(() => all.Of(program.Topics.State).Any(s => s.Contains("\"Hold\"", StringComparison.Ordinal)), "the hold");
        Assert.Equal(0, broker.Publish(program.Topics.Stop, Orders.Stop("c1", client: "doorway")));
        (int code, string output, string errors) = await RigProgram.End(process);
        Assert.True(code == 4, errors);
        await Until.True(() => all.Of(program.Topics.Figure).Any(), "the end");
        JsonElement receipt = RigProgram.Json(Assert.Single(all.Of(program.Topics.Receipt)));
        Assert.Equal(("c1", true), (receipt.GetProperty("correlation").GetString(), receipt.GetProperty("accepted").GetBoolean()));
        Assert.Contains(all.Of(program.Topics.Event), e => e.Contains("stop by the network (doorway)", StringComparison.Ordinal));
        Assert.Contains(all.Of(program.Topics.Trip("stop-command")), t => t.Length > 0);
        Assert.Equal("stop-command", RigProgram.Json(output).GetProperty("trips")[0].GetProperty("interlock").GetString());
    }

    [Fact]
    [Trait("Requirement", "SAF-070")]
    public async Task A_run_whose_broker_is_not_there_comes_out_as_one_without_telemetry()
    {
        RigProgram program = new(_folder);
        (int code, string output, _) = await RigProgram.End(program.Begin(RigProgram.ShortHold, $"{{ broker: 127.0.0.1, port: {Ports.Free()} }}", "max"));
        Assert.Equal(0, code);
        Assert.Equal("completed", RigProgram.Json(output).GetProperty("outcome").GetString());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_password_from_a_file_or_the_environment_lets_the_run_in_and_stands_in_no_record_and_no_output(bool inFile)
    {
        const string Password = "hush-7f3a91";
        Assert.SkipUnless(Support.Mosquitto.Installed, "mosquitto is not installed");
        string passwords = _folder.Write("passwords", $"box:{Password}\n");
        using (Process hash = Process.Start("mosquitto_passwd", ["-U", passwords]))
            await hash.WaitForExitAsync(TestContext.Current.CancellationToken);
        using Support.Mosquitto broker = new(_folder, $"allow_anonymous false\npassword_file {passwords}");
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#", "-u", "box", "-P", Password);
        _folder.Write("mqtt-secrets.txt", $"user: box\npassword: {Password}\n");
        RigProgram program = new(_folder)
        {
            Environment = inFile ? [] : new() { [RigControl.Telemetry.Links.Credentials.UserVariable] = "box", [RigControl.Telemetry.Links.Credentials.PasswordVariable] = Password },
        };
        string secrets = inFile ? ", secrets: mqtt-secrets.txt" : "";
        (int code, string output, string errors) = await RigProgram.End(program.Begin(RigProgram.ShortHold, $"{{ site: workshop, broker: 127.0.0.1, port: {broker.Port}{secrets} }}", "5"));
        Assert.True(code == 0, errors);
        await Until.True(() => all.Of(program.Topics.Figure).Any(), "the figures");
        Assert.DoesNotContain(Password, output + errors + string.Concat(all.Messages));
        foreach (string file in Directory.EnumerateFiles(_folder.Path, "logbook*").Concat(Directory.EnumerateFiles(_folder.At("telemetry"), "*", SearchOption.AllDirectories)))
            Assert.DoesNotContain(Password, System.Text.Encoding.Latin1.GetString(File.ReadAllBytes(file)));
    }

    public void Dispose() => _folder.Dispose();

    private static IEnumerable<string?> States(JsonElement list) => list.EnumerateArray().Select(s => s.GetProperty("state").GetString());

    private static int Number(string happened, string run)
    {
        string id = RigProgram.Json(happened).GetProperty("id").GetString()!;
        Assert.StartsWith(run + "-", id);
        return int.Parse(id[(run.Length + 1)..], System.Globalization.CultureInfo.InvariantCulture);
    }
}
