namespace RigControl.Physics.Tests;

public class EnclosureStateTests
{
    private static readonly Enclosure Data = new BenchParameters().Enclosure;
    private static readonly BenchDrive Power = new(0, true, false);
    private static readonly BenchDrive Unlock = new(0, false, true);

    private EnclosureState _state;
    private BenchFaults _faults;

    [Fact]
    public void Left_alone_the_lid_is_closed_and_locked_and_the_power_off()
    {
        After(0.01, default);
        Assert.True(_state.LidClosed);
        Assert.True(_state.BoltHome);
        Assert.False(_state.ContactorClosed);
    }

    [Fact]
    public void The_contactor_follows_its_coil_after_its_delays()
    {
        After(0.019, Power);
        Assert.False(_state.ContactorClosed);
        After(0.001, Power);
        Assert.True(_state.ContactorClosed);
        After(0.011, default);
        Assert.True(_state.ContactorClosed);
        After(0.001, default);
        Assert.False(_state.ContactorClosed);
    }

    [Fact]
    public void A_pressed_stop_drops_the_power_with_no_program_at_all()
    {
        After(0.1, Power);
        _faults.StopPressed = true;
        After(0.012, Power);
        Assert.False(_state.StopCircuitClosed);
        Assert.False(_state.ContactorClosed);
    }

    [Fact]
    public void A_broken_wire_in_the_stop_circuit_reads_as_pressed()
    {
        _faults.StopContact = ContactFault.StuckOpen;
        After(0.1, Power);
        Assert.False(_state.StopCircuitClosed);
        Assert.False(_state.ContactorClosed);
    }

    [Fact]
    public void A_bridged_stop_circuit_does_not_feel_the_press()
    {
        _faults.StopContact = ContactFault.StuckClosed;
        _faults.StopPressed = true;
        After(0.1, Power);
        Assert.True(_state.ContactorClosed);
    }

    [Fact]
    public void An_opening_lid_drops_the_power_with_no_program_at_all()
    {
        After(0.1, Power);
        _faults.LidForced = true;
        After(0.012, Power);
        Assert.False(_state.ContactorClosed);
    }

    [Fact]
    public void The_two_lid_contacts_always_differ_while_healthy()
    {
        After(0.001, default);
        Assert.True(_state.LidContactA);
        Assert.False(_state.LidContactB);
        _faults.LidForced = true;
        After(0.001, default);
        Assert.False(_state.LidContactA);
        Assert.True(_state.LidContactB);
    }

    [Theory]
    [InlineData(ContactFault.StuckOpen, false)]
    [InlineData(ContactFault.StuckClosed, true)]
    public void A_stuck_lid_contact_says_the_same_with_the_lid_open_and_closed(ContactFault fault, bool reading)
    {
        _faults.LidContactA = fault;
        _faults.LidContactB = fault;
        foreach (bool open in new[] { false, true })
        {
            _faults.LidForced = open;
            After(0.001, default);
            Assert.Equal(reading, _state.LidContactA);
            Assert.Equal(reading, _state.LidContactB);
        }
    }

    [Fact]
    public void The_bolt_is_drawn_on_request_and_returns_by_itself()
    {
        After(Data.BoltReleasing, Unlock);
        Assert.False(_state.BoltHome);
        After(Data.BoltReturning, default);
        Assert.True(_state.BoltHome);
    }

    [Fact]
    public void A_locked_lid_does_not_open_when_pulled()
    {
        _faults.LidPulled = true;
        After(5, default);
        Assert.True(_state.LidClosed);
    }

    [Fact]
    public void An_unlocked_lid_opens_when_pulled_and_keeps_the_bolt_out_until_closed()
    {
        After(0.1, Unlock);
        _faults.LidPulled = true;
        After(0.01, Unlock);
        Assert.False(_state.LidClosed);
        After(1, default);
        Assert.False(_state.LidClosed);
        Assert.False(_state.BoltHome);
        _faults.LidPulled = false;
        After(0.01, default);
        Assert.True(_state.LidClosed);
        Assert.False(_state.BoltHome);
        After(0.1, default);
        Assert.True(_state.LidClosed);
        Assert.True(_state.BoltHome);
    }

    [Fact]
    public void The_bolt_stays_home_while_the_contactor_is_closed()
    {
        After(0.1, Power);
        After(5, Power with { UnlockRequested = true });
        Assert.True(_state.BoltHome);
    }

    [Fact]
    public void A_welded_contactor_keeps_the_power_on_and_the_bolt_home()
    {
        After(0.1, Power);
        _faults.ContactorWelded = true;
        After(5, Unlock);
        Assert.True(_state.ContactorClosed);
        Assert.True(_state.BoltHome);
    }

    [Fact]
    public void A_contactor_welds_only_while_closed()
    {
        _faults.ContactorWelded = true;
        After(1, default);
        Assert.False(_state.ContactorClosed);
    }

    [Fact]
    public void A_dead_coil_never_closes_the_contactor()
    {
        _faults.ContactorDead = true;
        After(1, Power);
        Assert.False(_state.ContactorClosed);
    }

    [Fact]
    public void A_slow_actuator_takes_its_added_time_on_top()
    {
        After(0.1, Power);
        _faults.ActuatorDelay = 0.2;
        After(0.211, default);
        Assert.True(_state.ContactorClosed);
        After(0.001, default);
        Assert.False(_state.ContactorClosed);
    }

    [Fact]
    public void A_slow_bolt_is_drawn_later_by_what_was_added()
    {
        _faults.ActuatorDelay = 0.5;
        After(0.579, Unlock);
        Assert.True(_state.BoltHome);
        After(0.001, Unlock);
        Assert.False(_state.BoltHome);
    }

    [Fact]
    public void A_stuck_bolt_stays_home_or_drawn()
    {
        _faults.BoltStuck = true;
        After(1, Unlock);
        Assert.True(_state.BoltHome);
        _faults.BoltStuck = false;
        After(0.1, Unlock);
        _faults.BoltStuck = true;
        After(1, default);
        Assert.False(_state.BoltHome);
    }

    [Fact]
    public void A_lid_torn_open_leaves_no_bolt_at_home()
    {
        _faults.LidForced = true;
        After(0.001, default);
        Assert.False(_state.BoltHome);
    }

    private void After(double time, BenchDrive drive)
    {
        for (int i = 0; i < (int)Math.Round(time / 0.001); i++)
            _state.Advance(Data, drive, _faults, 0.001);
    }
}
