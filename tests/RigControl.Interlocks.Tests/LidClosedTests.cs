using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class LidClosedTests
{
    private const string Lid = ChannelNames.EnclosureLid;
    private const string LidOpen = ChannelNames.EnclosureLidOpen;

    private readonly Bench _bench = new(new LidClosedPlugin(), new LidClosedOptions());

    [Fact]
    public void A_closed_lid_lets_the_rig_go_on()
    {
        Assert.Equal(1, _bench.Scan().Proceeds().Margin);
        Assert.Equal("the lid is closed", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-010")]
    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 1)]
    [InlineData(0, 0)]
    public void A_lid_that_is_not_proven_closed_by_both_contacts_stops_at_once(double closes, double opens) =>
        _bench.Set(Lid, closes).Set(LidOpen, opens).Scan().Objects();

    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(1, 0.5)]
    [InlineData(2, 0)]
    [InlineData(1, -1)]
    public void A_contact_that_reads_neither_0_nor_1_proves_nothing(double closes, double opens) =>
        _bench.Set(Lid, closes).Set(LidOpen, opens).Scan().Objects();

    [Fact]
    public void A_lid_that_blinked_open_between_two_scans_stops_and_says_when()
    {
        Demand demand = _bench.Spread(Lid, last: 1, minimum: 0, maximum: 1).Scan().Objects();
        Assert.Equal((LidClosed.NotClosed, Bench.Index(Lid), 0.0, 1.0), (demand.Reason, demand.Channel, demand.Value, demand.Limit));
        Assert.Equal(_bench.Now - Bench.Seconds(0.003), demand.ShownAt);
    }

    [Fact]
    public void A_blink_of_the_opening_contact_alone_stops_and_says_when()
    {
        Demand demand = _bench.Spread(LidOpen, last: 0, minimum: 0, maximum: 1).Scan().Objects();
        Assert.Equal((LidClosed.NotClosed, Bench.Index(LidOpen), 1.0, 0.0), (demand.Reason, demand.Channel, demand.Value, demand.Limit));
        Assert.Equal(_bench.Now - Bench.Seconds(0.004), demand.ShownAt);
    }

    [Fact]
    public void An_open_lid_is_explained_with_contact_and_reading()
    {
        Assert.Equal("the lid is open: enclosure.lid reads 0, not 1", _bench.Set(Lid, 0).Set(LidOpen, 1).Sentence());
        Assert.Equal("the lid is open: enclosure.lid-open reads 1, not 0", _bench.Set(Lid, 1).Sentence());
    }

    [Fact]
    public void A_lid_opened_and_closed_properly_leaves_nothing_behind()
    {
        Move(0.00, closes: 0, opens: 0).Objects();
        Move(0.05, closes: 0, opens: 1).Objects();
        Move(5.00, closes: 0, opens: 0).Objects();
        Move(0.10, closes: 0, opens: 0).Objects();
        Move(0.01, closes: 1, opens: 0).Proceeds();
    }

    [Fact]
    public void A_contradiction_of_exactly_the_discrepancy_time_is_forgiven_and_one_longer_is_not()
    {
        Move(0, closes: 1, opens: 1);
        Assert.Equal(LidClosed.NotClosed, Move(0.1, closes: 1, opens: 1).Objects().Reason);
        Assert.Equal(LidClosed.Contradiction, Move(0.001, closes: 1, opens: 1).Objects().Reason);
    }

    [Fact]
    public void Two_short_contradictions_are_not_added_up()
    {
        Move(0.00, closes: 1, opens: 1);
        Move(0.08, closes: 1, opens: 0).Proceeds();
        Move(0.01, closes: 1, opens: 1);
        Move(0.08, closes: 1, opens: 1);
        Move(0.01, closes: 1, opens: 0).Proceeds();
    }

    [Trait("Requirement", "SAF-010")]
    [Fact]
    public void A_welded_contact_is_not_believed_again_by_merely_closing_the_lid()
    {
        ContradictFor(0.2);
        Demand demand = Move(0.5, closes: 1, opens: 0).Objects();
        Assert.Equal(LidClosed.Contradiction, demand.Reason);
        Assert.Equal(
            "the two lid contacts contradicted each other for longer than 0.1 s; look at contacts and wiring, "
            + "then open the lid fully and close it again",
            _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void A_contradiction_is_dated_from_its_beginning()
    {
        TimeSpan begin = _bench.Now;
        ContradictFor(0.2);
        Assert.Equal(begin, Move(0.5, closes: 1, opens: 0).Objects().ShownAt);
    }

    [Fact]
    public void Contacts_that_were_seen_open_and_closed_again_are_believed()
    {
        ContradictFor(0.2);
        Move(0.1, closes: 0, opens: 1).Objects();
        Move(0.1, closes: 1, opens: 0).Proceeds();
        Assert.Equal(default, _bench.Memory);
    }

    [Fact]
    public void A_short_contradiction_on_the_way_from_open_to_closed_does_not_spoil_the_proof()
    {
        ContradictFor(0.2);
        Move(0.1, closes: 0, opens: 1).Objects();
        Move(0.1, closes: 0, opens: 0).Objects();
        Move(0.05, closes: 1, opens: 0).Proceeds();
    }

    [Fact]
    public void A_new_contradiction_after_open_asks_for_the_whole_proof_again()
    {
        ContradictFor(0.2);
        Move(0.1, closes: 0, opens: 1).Objects();
        ContradictFor(0.2);
        Move(0.1, closes: 1, opens: 0).Objects();
    }

    [Fact]
    public void Readings_that_are_not_there_yet_at_start_up_are_no_contradiction()
    {
        _bench.Bad(Lid, BadCause.Never).Bad(LidOpen, BadCause.Never).Scan().Objects();
        Assert.Equal(default, _bench.Memory);
        Move(2, closes: 1, opens: 0).Proceeds();
    }

    [Fact]
    public void A_contact_that_cannot_be_read_does_not_clear_what_is_remembered()
    {
        ContradictFor(0.2);
        InterlockMemory before = _bench.Memory;
        _bench.Bad(LidOpen, BadCause.TooOld).Scan().Objects();
        Assert.Equal(before, _bench.Memory);
    }

    [Theory]
    [InlineData(Lid, "enclosure lid has never been read; check that its device is connected")]
    [InlineData(LidOpen, "enclosure lid open has never been read; check that its device is connected")]
    public void Either_contact_that_cannot_be_read_stops_and_is_named(string channel, string sentence)
    {
        Demand demand = _bench.Bad(channel, BadCause.Never).Scan().Objects();
        Assert.Equal(Bench.Index(channel), demand.Channel);
        Assert.Equal(sentence, _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void One_channel_cannot_stand_for_both_contacts()
    {
        LidClosedOptions options = new() { OpenContact = Lid };
        string message = Assert.Throws<OptionException>(() => new Bench(new LidClosedPlugin(), options)).Message;
        Assert.Equal("lid-closed needs two contacts, but both of its channels are enclosure.lid", message);
    }

    private void ContradictFor(double seconds)
    {
        Move(0, closes: 1, opens: 1);
        Move(seconds, closes: 1, opens: 1);
    }

    private Demand Move(double after, double closes, double opens)
    {
        _bench.Set(LidOpen, opens);
        return _bench.ScanAfter(after, Lid, closes);
    }
}
