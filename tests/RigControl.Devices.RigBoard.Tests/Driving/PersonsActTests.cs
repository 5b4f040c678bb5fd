using RigControl.Devices.RigBoard.Driving;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Driving;

public class PersonsActTests
{
    private readonly PersonsAct _person = new();

    [Fact]
    public void The_first_arming_is_a_persons() => Assert.True(CertainAtRise(Session.Stop));

    [Fact]
    public void After_a_run_that_came_to_rest_the_next_arming_may_be_a_repeats_own() =>
        Assert.False(CertainAtRise(Session.Stop, Session.Armed, Session.Warning, Session.Driven, Session.Armed, Session.Stop));

    [Fact]
    public void After_power_was_cut_while_driven_a_person_must_have_reset() =>
        Assert.True(CertainAtRise(Session.Stop, Session.Armed, Session.Warning, Session.Driven, Session.Stop));

    [Fact]
    public void After_an_arming_broken_off_a_person_must_have_reset()
    {
        Assert.True(CertainAtRise(Session.Stop, Session.Armed, Session.Stop));
        Assert.True(CertainAtRise(Session.Stop, Session.Armed, Session.Warning, Session.Stop));
    }

    [Fact]
    public void After_a_stop_with_power_kept_on_for_a_while_it_is_not_certain() =>
        Assert.False(CertainAtRise(Session.Stop, Session.Armed, Session.Warning, Session.Driven, Session.Armed, Session.Armed, Session.Stop));

    [Fact]
    public void A_lid_released_in_between_is_a_persons_doing() => Assert.True(CertainAtRise(
        Session.Stop, Session.Armed, Session.Warning, Session.Driven, Session.Armed, Session.Stop, Session.Unlocked, Session.Stop));

    [Fact]
    public void The_sign_of_one_pause_does_not_serve_the_next() => Assert.False(CertainAtRise(
        Session.Unlocked, Session.Armed, Session.Warning, Session.Driven, Session.Armed, Session.Stop));

    private bool CertainAtRise(params OutputImage[] before)
    {
        foreach (OutputImage outputs in before)
            _person.Follow(outputs, outputs.Pulse != 1000);
        Assert.True(_person.Follow(Session.Armed, drives: false));
        return _person.Certain;
    }
}
