using System.Diagnostics;
using System.Text.Json;
using System.Text.RegularExpressions;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Outage;
using RigControl.Telemetry.Tests.Support;
using static System.FormattableString;

namespace RigControl.Telemetry.Tests;

/// <summary>docs/telemetry.md says what the program does.</summary>
public sealed partial class DocumentTests : IDisposable
{
    private static readonly string Page = File.ReadAllText(RigProgram.At("docs/telemetry.md"));

    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void Every_key_of_the_rig_file_stands_in_the_page_and_no_other()
    {
        using JsonDocument schema = JsonDocument.Parse(File.ReadAllText(RigProgram.At("shared/schemas/rig.schema.json")));
        IEnumerable<string> keys = schema.RootElement.GetProperty("properties").GetProperty("telemetry").GetProperty("properties").EnumerateObject().Select(p => p.Name);
        Assert.Equal(keys.Order(), Rows("Switch it on").Order());
    }

    [Fact]
    public void Every_topic_stands_in_the_page_and_has_a_schema() =>
        Assert.Equal(Schemas.Names.Except(["stop", "acknowledge"]).Order(), Rows("What is published").Select(r => r.Split('/')[0]).Order());

    [Fact]
    public void The_numbers_of_the_page_are_those_of_the_program()
    {
        LinkTimes times = new();
        Assert.Contains(Invariant($"When none comes for {times.Acknowledgement.TotalSeconds} s"), Page);
        Assert.Contains(Invariant($"after about {times.FirstRetry.TotalSeconds} s and then after up to {times.LongestRetry.TotalSeconds} s"), Page);
        Assert.Contains(Invariant($"up to {Outbox.MostMessages:#,0} of them or {Outbox.MostBytes >> 20} MiB"), Page);
        Assert.Contains(Invariant($"at most {times.Farewell.TotalSeconds} s are spent"), Page);
        Assert.Contains(Invariant($"at most {CommandIntake.LongestLife.TotalSeconds} s ahead"), Page);
        Assert.Contains(Invariant($"larger than {NetworkCommand.Largest} bytes"), Page);
        Assert.Contains(Invariant($"at most {RigControl.Telemetry.Broker.EmbeddedBroker.MostClients} clients"), Page);
    }

    [Fact]
    [Trait("Requirement", "SAF-075")]
    public async Task The_rights_of_the_page_let_a_real_broker_deny_what_they_should()
    {
        string acl = _folder.Write("acl", Acl().Match(Page).Groups[1].Value);
        string passwords = _folder.Write("passwords", "box-1:rig\nanna:anna\nscreen:screen\n");
        Assert.SkipUnless(Support.Mosquitto.Installed, "mosquitto is not installed");
        using (Process hash = Process.Start("mosquitto_passwd", ["-U", passwords]))
            await hash.WaitForExitAsync(TestContext.Current.CancellationToken);
        using Support.Mosquitto broker = new(_folder, $"allow_anonymous false\npassword_file {passwords}\nacl_file {acl}");
        BrokerAddress address = new() { Host = "127.0.0.1", Port = broker.Port, Credentials = new Credentials("box-1", "rig", null, null) };
        using Published rig = new Published(_folder.At("state"), address, header: Toy.Header(rig: "box-1"), rig: "box-1").Attached();
        Support.Mosquitto.Heard seen = broker.Subscribe("rigcontrol/#", "-u", "screen", "-P", "screen");
        rig.Toy.Tick();
        await Until.True(() => seen.Of(rig.Topics.State).Any(), "what a screen may see");
        broker.Publish(rig.Topics.Stop, Orders.Stop(client: "screen"), "-u", "screen", "-P", "screen");
        broker.Publish(rig.Topics.Status, """{"status":"lost"}""", "-u", "anna", "-P", "anna", "-r");
        broker.Publish(rig.Topics.Stop, Orders.Stop(client: "anna"), "-u", "anna", "-P", "anna");
        await Until.True(() => !rig.Port.Stops.IsEmpty, "the stop of one who may");
        Assert.Equal("anna", Assert.Single(rig.Port.Stops).Client);
        Assert.DoesNotContain(seen.Of(rig.Topics.Status), s => s.Contains("lost", StringComparison.Ordinal));
    }

    public void Dispose() => _folder.Dispose();

    private static IEnumerable<string> Rows(string section) =>
        Key().Matches(Page.Split("\n## ").Single(s => s.StartsWith(section, StringComparison.Ordinal)).Split("\n### ")[0]).Select(m => m.Groups[1].Value);

    [GeneratedRegex("^\\| `([^`]+)` \\|", RegexOptions.Multiline)]
    private static partial Regex Key();

    [GeneratedRegex("```acl\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Acl();
}
