using RigControl.Telemetry.Broker;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Broker;

/// <summary>What is not allowed is denied.</summary>
public sealed class RightsTests : IDisposable
{
    private const string Root = "rigcontrol/1/workshop/toy-box";

    private readonly TemporaryFolder _folder = new();
    private readonly Rights _rights = new(new Topics("workshop", "toy-box"));

    [Theory]
    [Trait("Requirement", "SAF-075")]
    [InlineData("Reader", $"{Root}/command/stop", false)]
    [InlineData("Reader", $"{Root}/state", false)]
    [InlineData("None", $"{Root}/command/stop", false)]
    [InlineData("Operator", $"{Root}/command/stop", true)]
    [InlineData("Operator", $"{Root}/command/acknowledge", true)]
    [InlineData("Operator", $"{Root}/command/start", false)]
    [InlineData("Operator", $"{Root}/command/stop/", false)]
    [InlineData("Operator", $"{Root}/state", false)]
    [InlineData("Operator", $"{Root}/receipt", false)]
    [InlineData("Operator", "rigcontrol/1/workshop/other-box/command/stop", false)]
    [InlineData("Operator", "$SYS/broker", false)]
    [InlineData("Host", $"{Root}/state", true)]
    [InlineData("Host", $"{Root}/command/stop", false)]
    [InlineData("Host", "rigcontrol/1/workshop/other-box/state", false)]
    public void A_client_publishes_what_its_role_allows_and_nothing_else(string role, string topic, bool may) =>
        Assert.Equal(may, _rights.MayPublish(Enum.Parse<Role>(role), topic));

    [Theory]
    [InlineData("Reader", "rigcontrol/#", true)]
    [InlineData("Reader", "#", true)]
    [InlineData("Operator", $"{Root}/receipt/tablet", true)]
    [InlineData("Reader", $"{Root}/command/#", false)]
    [InlineData("Operator", $"{Root}/command/stop", false)]
    [InlineData("Reader", "$SYS/#", false)]
    [InlineData("Reader", "$share/all/rigcontrol/#", false)]
    [InlineData("None", "rigcontrol/#", false)]
    [InlineData("Host", $"{Root}/command/+", true)]
    public void A_client_reads_what_its_role_allows_and_nothing_else(string role, string filter, bool may) =>
        Assert.Equal(may, _rights.MaySubscribe(Enum.Parse<Role>(role), filter));

    [Fact]
    public void A_file_of_users_gives_each_its_role_by_its_password()
    {
        BrokerUsers users = BrokerUsers.FromFile(_folder.Write("users", "# the workshop\noperator anna with spaces\nreader wall-screen look\n"));
        Assert.Equal(Role.Operator, users.RoleOf("anna", "with spaces"u8.ToArray()));
        Assert.Equal(Role.Reader, users.RoleOf("wall-screen", "look"u8.ToArray()));
        Assert.Equal(Role.None, users.RoleOf("anna", "look"u8.ToArray()));
        Assert.Equal(Role.None, users.RoleOf("nobody", "look"u8.ToArray()));
        Assert.Equal(Role.None, users.RoleOf(null, null));
        Assert.Equal(Role.Operator, BrokerUsers.Everyone.RoleOf(null, null));
    }

    [Theory]
    [InlineData("host evil secret", "users:1")]
    [InlineData("operator anna", "users:1")]
    [InlineData("operator anna a\noperator anna b", "twice")]
    [InlineData("# nobody", "holds no user")]
    public void A_file_of_users_that_is_wrong_is_a_sentence_without_the_secret(string text, string said)
    {
        LinkException e = Assert.Throws<LinkException>(() => BrokerUsers.FromFile(_folder.Write("users", text)));
        Assert.Contains(said, e.Message);
        Assert.DoesNotContain("secret", e.Message);
    }

    public void Dispose() => _folder.Dispose();
}
