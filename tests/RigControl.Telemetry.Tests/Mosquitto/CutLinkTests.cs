using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Mosquitto;

/// <summary>The link breaks after the nth byte, in the middle of a greeting, a word or a receipt, once or several times.</summary>
public sealed class CutLinkTests : IDisposable
{
    private const int Seed = 3021;

    private readonly TemporaryFolder _folder = new();

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public async Task Wherever_the_link_breaks_everything_that_has_to_arrive_does_and_in_order(int cuts)
    {
        TestContext.Current.TestOutputHelper?.WriteLine($"seed {Seed}");
        Random random = new(Seed + cuts);
        using Support.Mosquitto broker = new(_folder);
        Support.Mosquitto.Heard all = broker.Subscribe("#");
        await Until.True(() => { broker.Publish("probe", "x"); return all.Of("probe").Any(); }, "the reader");
        int broken = 0;
        for (int i = 0; i < 20; i++)
        {
            // Up to the end of what this run says in all.
            int after = 1 + random.Next(6000);
            string run = $"cut-{cuts}-{after}-{i}";
            using Relay way = new(broker.Port) { CutAfter = after, Cuts = cuts };
            using Published rig = new Published(_folder.At(run), new BrokerAddress { Host = "127.0.0.1", Port = way.Port }, header: Toy.Header(run: run)).Attached();
            Play(rig);
            await Until.True(() => all.Of(rig.Topics.Figure).Any(f => Is(f, run)), $"the end of {run}");
            string[] ids = [.. all.Of(rig.Topics.Event).Where(e => Is(e, run)).Select(e => RigProgram.Json(e).GetProperty("id").GetString()!).Distinct()];
            Assert.Equal(Enumerable.Range(1, ids.Length).Select(n => $"{run}-{n}"), ids);
            Assert.Equal(8, ids.Length);
            Assert.Contains(all.Of(rig.Topics.Trip("lid-closed")), t => Is(t, run));
            broken += way.Made > 1 ? 1 : 0;
        }

        // Otherwise nothing was shown.
        Assert.True(broken >= 15, $"only {broken} of 20 links broke");
    }

    public void Dispose() => _folder.Dispose();

    private static bool Is(string payload, string run) => payload.Contains($"\"run\":\"{run}\"", StringComparison.Ordinal);

    private static void Play(Published rig)
    {
        rig.Toy.Ticks(20);
        for (int i = 0; i < 6; i++)
            rig.Toy.Say($"word {i}");
        rig.Toy.Trip();
        rig.Toy.Tick(RigState.SafeStop, latched: 1);
        rig.Toy.Say("after it");
        rig.Telemetry.Finish(new RunEnd(RunOutcome.SafeStop, DateTimeOffset.UtcNow, null), []);
    }
}
