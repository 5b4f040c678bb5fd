using System.Buffers;
using System.Text;
using RigControl.Telemetry.Tests.Support;
using RigControl.Telemetry.Watching;

namespace RigControl.Telemetry.Tests.Watching;

/// <summary>A watcher believes what is written as agreed, and is harmed by nothing else.</summary>
public class GlimpseReaderTests
{
    private const int Seed = 90210;

    private static readonly RigGlimpse Nothing = new("box-1");

    [Fact]
    public void A_state_is_read_with_its_trips()
    {
        RigGlimpse glimpse = After(Nothing, "state", """{"session":1,"run":"r1","state":"SafeStop","phase":"None","trips":["lid-closed","over-speed"]}""")!;
        Assert.Equal(("SafeStop", "None", "r1"), (glimpse.State, glimpse.Phase, glimpse.Run));
        Assert.Equal(["lid-closed", "over-speed"], glimpse.Trips);
    }

    [Fact]
    public void A_trip_s_reason_comes_with_its_message_and_goes_with_an_empty_one()
    {
        RigGlimpse tripped = After(Nothing, "trip/lid-closed", """{"reason":"the lid was opened"}""")!;
        Assert.Equal("the lid was opened", tripped.Reasons["lid-closed"]);
        Assert.Empty(After(tripped, "trip/lid-closed", "")!.Reasons);
    }

    [Fact]
    public void The_tightest_interlock_is_read_with_a_margin_or_without()
    {
        RigGlimpse near = After(Nothing, "data", """{"tightest":{"interlock":"over-speed","objects":false,"margin":0.25}}""")!;
        Assert.Equal(("over-speed", 0.25, false), (near.Tightest, near.Margin, near.Objects));
        Assert.Null(After(near, "data", """{"tightest":{"interlock":"over-speed","objects":true,"margin":null}}""")!.Margin);
        Assert.Equal(near, After(near, "data", "{}"));
    }

    [Fact]
    public void Nothing_that_a_terminal_would_obey_gets_through()
    {
        string reason = After(Nothing, "trip/lid", "{\"reason\":\"\\u001b[2Jgone\\u0007\"}")!.Reasons["lid"];
        Assert.DoesNotContain(reason, char.IsControl);
        Assert.Null(After(Nothing, "state", "{\"session\":1,\"run\":\"r1\",\"state\":\"\\u001b[31mHold\",\"phase\":\"None\",\"trips\":[]}"));
        Assert.Equal(200, After(Nothing, "trip/lid", $$"""{"reason":"{{new string('x', 5000)}}"}""")!.Reasons["lid"].Length);
    }

    [Theory]
    [InlineData("rigcontrol/1/workshop/box-1/state", "box-1", "state")]
    [InlineData("rigcontrol/1/workshop/box-1/trip/lid-closed", "box-1", "trip/lid-closed")]
    public void A_topic_of_a_rig_is_taken_apart(string topic, string rig, string kind) => Assert.Equal(("workshop", rig, kind), GlimpseReader.Split(topic));

    [Theory]
    [InlineData("rigcontrol/2/workshop/box-1/state")]
    [InlineData("rigcontrol/1/workshop/Box/state")]
    [InlineData("rigcontrol/1/workshop/box-1")]
    [InlineData("other/1/workshop/box-1/state")]
    public void Another_topic_is_none_of_a_rig(string topic) => Assert.Null(GlimpseReader.Split(topic));

    [Fact]
    public void Whatever_bytes_come_nothing_is_thrown()
    {
        TestContext.Current.TestOutputHelper?.WriteLine($"seed {Seed}");
        Random random = new(Seed);
        string[] kinds = ["status", "birth", "state", "data", "heartbeat", "trip/lid", "figure", "receipt"];
        byte[] sound = Encoding.UTF8.GetBytes("""{"session":1,"run":"r1","status":"online","state":"Hold","phase":"None","trips":["a"],"reason":"b","simulated":true,"tightest":{"interlock":"c","objects":false,"margin":1}}""");
        for (int i = 0; i < 20_000; i++)
        {
            byte[] bytes = (byte[])sound.Clone();
            for (int j = random.Next(6); j > 0; j--)
                bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            _ = GlimpseReader.After(Nothing, kinds[random.Next(kinds.Length)], new ReadOnlySequence<byte>(bytes, 0, random.Next(bytes.Length + 1)));
        }
    }

    private static RigGlimpse? After(RigGlimpse before, string kind, string payload) =>
        GlimpseReader.After(before, kind, new ReadOnlySequence<byte>(Encoding.UTF8.GetBytes(payload)));
}
