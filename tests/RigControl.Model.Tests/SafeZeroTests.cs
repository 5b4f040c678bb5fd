using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Model.Tests;

/// <summary>What nobody has set must be safe.</summary>
public class SafeZeroTests
{
    [Fact]
    public void A_reading_that_nobody_vouched_for_is_bad() => Assert.Equal(Quality.Bad, default(ImageEntry).Quality);

    [Fact]
    public void An_entry_that_never_had_a_sample_is_not_usable() => Assert.False(default(ImageEntry).IsUsable);

    [Fact]
    public void A_rig_whose_state_nobody_set_is_in_safe_stop() => Assert.Equal(RigState.SafeStop, default);

    [Trait("Requirement", "SAF-001")]
    [Fact]
    public void Outputs_that_nobody_set_are_stopped_unpowered_and_locked()
    {
        OutputImage outputs = default;
        Assert.Equal(0, outputs.Throttle);
        Assert.Equal(0, outputs.Pulse);
        Assert.False(outputs.Power);
        Assert.False(outputs.Unlocked);
    }

    [Fact]
    public void A_demand_that_nobody_filled_in_cuts_the_power() => Assert.Equal(DemandAction.CutPower, default(Demand).Action);

    [Fact]
    public void A_command_that_nobody_filled_in_stops_and_comes_from_where_nothing_can_start()
    {
        Assert.Equal(CommandKind.Stop, default(Command).Kind);
        Assert.Equal(CommandSource.Network, default(Command).Source);
    }

    [Fact]
    public void A_receipt_that_nobody_filled_in_is_no_acceptance() => Assert.NotEqual(RefusalReason.None, default(Receipt).Refusal);

    [Fact]
    public void A_run_whose_end_nobody_wrote_is_broken_off() => Assert.Equal(RunOutcome.BrokenOff, default);

    [Fact]
    public void A_step_of_no_kind_energises_nothing() => Assert.Equal(StepKind.Rest, default);

    [Fact]
    public void A_latch_of_no_policy_needs_a_restart() => Assert.Equal(ResetPolicy.Restart, default);
}
