using RigControl.Telemetry.Links;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Mosquitto;

/// <summary>Who the broker is, who the rig is, and what each may; whatever is wrong ends in a sentence.</summary>
public sealed class IdentityTests : IDisposable
{
    private const string Secret = "hush-hush";

    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task A_broker_that_the_authority_vouches_for_is_spoken_to()
    {
        Certificates workshop = new(_folder, "workshop");
        using Support.Mosquitto broker = new(_folder, Tls(workshop.Issue("broker", "localhost")));
        await Works(Address(broker) with { Authority = workshop.Authority });
    }

    [Fact]
    public async Task An_authority_below_the_named_one_may_vouch_for_the_broker()
    {
        Certificates workshop = new(_folder, "workshop");
        using Support.Mosquitto broker = new(_folder, Tls(new Certificates(_folder, "below", workshop).Issue("broker", "localhost", along: true)));
        await Works(Address(broker) with { Authority = workshop.Authority });
    }

    [Fact]
    public async Task A_rig_s_certificate_does_not_let_it_pose_as_the_broker()
    {
        Certificates workshop = new(_folder, "workshop");
        using Support.Mosquitto broker = new(_folder, Tls(workshop.Issue("broker", "localhost", forClients: true)));
        await Fails(Address(broker) with { Authority = workshop.Authority }, "does not vouch for the broker");
    }

    [Theory]
    [InlineData("another authority", "does not vouch for the broker")]
    [InlineData("the machine's authorities", "no authority that this machine trusts")]
    [InlineData("another name", "issued for another name")]
    [InlineData("another pin", "another certificate than the pinned one")]
    [InlineData("no such file", "cannot be used")]
    public async Task A_broker_that_cannot_prove_who_it_is_is_not_spoken_to(string wrong, string said)
    {
        Certificates workshop = new(_folder, "workshop");
        Certificates other = new(_folder, "other");
        using Support.Mosquitto broker = new(_folder, Tls(workshop.Issue("broker", wrong == "another name" ? "elsewhere.example" : "localhost")));
        BrokerAddress address = Address(broker) with { Credentials = new Credentials("rig", Secret, null, null) };
        await Fails(
            wrong switch
            {
                "another authority" => address with { Authority = other.Authority },
                "the machine's authorities" => address,
                "another pin" => address with { Pin = new string('0', 64) },
                "no such file" => address with { Authority = _folder.At("none.pem") },
                _ => address with { Authority = workshop.Authority },
            }, said);
    }

    [Fact]
    public async Task A_pinned_certificate_is_enough()
    {
        (string certificate, string key, string pin) = new Certificates(_folder, "workshop").Issue("broker", "elsewhere.example");
        using Support.Mosquitto broker = new(_folder, Tls((certificate, key, pin)));
        await Works(Address(broker) with { Pin = pin });
    }

    [Fact]
    public async Task A_client_certificate_lets_the_rig_in_and_its_lack_keeps_it_out()
    {
        Certificates workshop = new(_folder, "workshop");
        (string certificate, string key, _) = workshop.Issue("rig", "rig", forClients: true);
        using Support.Mosquitto broker = new(_folder, $"{Tls(workshop.Issue("broker", "localhost"))}\ncafile {workshop.Authority}\nrequire_certificate true");
        BrokerAddress address = Address(broker) with { Authority = workshop.Authority };
        await Works(address with { Credentials = new Credentials(null, null, certificate, key) });
        await Fails(address, "");
    }

    [Fact]
    public async Task A_wrong_password_ends_in_a_sentence_and_a_right_one_works()
    {
        string file = _folder.Write("passwords", "rig:right\n");
        Assert.SkipUnless(Support.Mosquitto.Installed, "mosquitto is not installed");
        using (System.Diagnostics.Process hash = System.Diagnostics.Process.Start("mosquitto_passwd", ["-U", file]))
            await hash.WaitForExitAsync(TestContext.Current.CancellationToken);
        using Support.Mosquitto broker = new(_folder, $"password_file {file}\nallow_anonymous false");
        BrokerAddress address = new() { Host = "127.0.0.1", Port = broker.Port };
        await Fails(address with { Credentials = new Credentials("rig", "wrong", null, null) }, "does not take this user and password");
        await Fails(address, "does not take this user and password");
        await Works(address with { Credentials = new Credentials("rig", "right", null, null) });
    }

    [Fact]
    public async Task A_password_is_not_sent_in_the_clear_to_another_machine() =>
        await Fails(new BrokerAddress { Host = "broker.example", Port = 1883, Credentials = new Credentials("rig", Secret, null, null) }, "in the clear");

    [Fact]
    public async Task A_topic_that_the_broker_denies_is_named_and_the_others_go_on()
    {
        string acl = _folder.Write("acl", "topic read #\ntopic write rigcontrol/1/workshop/toy-box/status\ntopic write rigcontrol/1/workshop/toy-box/state\ntopic write rigcontrol/1/workshop/toy-box/heartbeat\n");
        using Support.Mosquitto broker = new(_folder, $"allow_anonymous true\nacl_file {acl}");
        using Published rig = Start(new BrokerAddress { Host = "127.0.0.1", Port = broker.Port });
        Support.Mosquitto.Heard all = broker.Subscribe("rigcontrol/#");
        rig.Toy.Tick();
        rig.Toy.Say("nobody hears this");
        await Until.True(() => rig.Noted.Any(n => n.Contains("does not take rigcontrol/1/workshop/toy-box/event", StringComparison.Ordinal)), "the note");
        await Until.True(() => all.Of(rig.Topics.State).Any() && all.Of(rig.Topics.Heartbeat).Any(), "the others");
        Assert.Empty(all.Of(rig.Topics.Event));
    }

    public void Dispose() => _folder.Dispose();

    private static string Tls((string Certificate, string Key, string Pin) broker) => $"certfile {broker.Certificate}\nkeyfile {broker.Key}\nallow_anonymous true";

    private static BrokerAddress Address(Support.Mosquitto broker) => new() { Host = "localhost", Port = broker.Port, Tls = true };

    private Published Start(BrokerAddress address) => new Published(_folder.At("state"), address).Attached();

    private async Task Works(BrokerAddress address)
    {
        using Published rig = Start(address);
        rig.Toy.Tick();
        await Until.True(() => rig.Telemetry.IsLinked, "the link; noted: " + string.Join("; ", rig.Noted));
    }

    private async Task Fails(BrokerAddress address, string said)
    {
        using Published rig = Start(address);
        rig.Toy.Tick();
        await Until.True(() => rig.Noted.Any(), "the sentence");
        Assert.Contains(said, rig.Noted.First());
        Assert.DoesNotContain(Secret, rig.Noted.First());
        Assert.False(rig.Telemetry.IsLinked);
    }
}
