using RigControl.Telemetry.Links;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Links;

/// <summary>Who the program is comes from the environment or a file of its own, and is never printed.</summary>
public sealed class CredentialsTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void The_environment_gives_what_it_has()
    {
        Dictionary<string, string> variables = new() { [Credentials.UserVariable] = "rig", [Credentials.PasswordVariable] = "secret" };
        Assert.Equal(new Credentials("rig", "secret", null, null), Credentials.FromEnvironment(variables.GetValueOrDefault));
    }

    [Fact]
    public void A_file_gives_what_it_has_and_names_other_files_from_where_it_stands()
    {
        string file = _folder.Write("mqtt.secrets", "# the broker of the workshop\nuser: rig\n\npassword: a: b # c\ncertificate: rig.pem\n");
        Assert.Equal(new Credentials("rig", "a: b # c", _folder.At("rig.pem"), null), Credentials.FromFile(file));
    }

    [Fact]
    public void A_line_that_is_none_is_named_by_its_number_and_never_repeated()
    {
        string file = _folder.Write("mqtt.secrets", "user: rig\nhunter2\n");
        LinkException e = Assert.Throws<LinkException>(() => Credentials.FromFile(file));
        Assert.Contains("mqtt.secrets:2", e.Message);
        Assert.DoesNotContain("hunter2", e.Message);
    }

    [Fact]
    public void A_file_that_is_not_there_is_a_sentence() =>
        Assert.Contains("cannot be read", Assert.Throws<LinkException>(() => Credentials.FromFile(_folder.At("none"))).Message);

    [Fact]
    public void Nothing_of_it_is_ever_printed() => Assert.DoesNotContain("secret", $"{new Credentials("rig", "secret", null, null)} {new BrokerAddress { Host = "h", Port = 1, Credentials = new("rig", "secret", null, null) }}");

    public void Dispose() => _folder.Dispose();
}
