using RigControl.Telemetry.Outage;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Outage;

/// <summary>What is remembered from one process to the next.</summary>
public sealed class StateFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void The_session_number_rises_with_every_connection_also_of_later_processes()
    {
        List<long> numbers = [];
        for (int process = 0; process < 3; process++)
        {
            using StateFolder state = Open();
            numbers.Add(state.NextSession());
            numbers.Add(state.NextSession());
        }

        Assert.Equal([1, 2, 3, 4, 5, 6], numbers);
    }

    [Fact]
    public void A_number_that_cannot_be_read_begins_anew_and_is_no_fault()
    {
        using (StateFolder state = Open())
            state.NextSession();
        File.WriteAllText(_folder.At("workshop/toy-box/session"), "-7 or so");
        using StateFolder again = Open();
        Assert.Equal(1, again.NextSession());
        Assert.Equal(2, again.NextSession());
    }

    [Fact]
    public void Two_rigs_of_a_site_do_not_share_their_memory()
    {
        using StateFolder one = Open();
        using StateFolder other = StateFolder.Open(_folder.Path, "workshop", "other-box", TimeProvider.System);
        Assert.Equal((1, 1), (one.NextSession(), other.NextSession()));
        Assert.Null(other.Problem);
    }

    [Fact]
    public void A_folder_that_cannot_be_used_costs_the_memory_and_nothing_else()
    {
        using StateFolder first = Open();
        using StateFolder second = Open();
        Assert.Contains("another run of this rig", second.Problem);
        long number = second.NextSession();
        Assert.True(number > 1_000_000_000, "without a memory the clock has to rise");
        Assert.Equal(number + 1, second.NextSession(), 2.0);
        second.Outbox.Add(new Outbound(OutboundKind.Event, "", "r", [1]));
        Assert.Equal(1, second.Outbox.Count);
    }

    [Fact]
    public void Trips_left_standing_are_remembered()
    {
        using (StateFolder state = Open())
            state.RememberTrips(["lid-closed", "over-speed"]);
        using StateFolder again = Open();
        Assert.Equal(["lid-closed", "over-speed"], again.StandingTrips());
        again.RememberTrips([]);
        Assert.Empty(again.StandingTrips());
    }

    public void Dispose() => _folder.Dispose();

    private StateFolder Open() => StateFolder.Open(_folder.Path, "workshop", "toy-box", TimeProvider.System);
}
