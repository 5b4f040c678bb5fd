namespace RigControl.Physics.Tests;

public class DelayedSwitchTests
{
    [Theory]
    [InlineData(0.001, 20)]
    [InlineData(0.002, 10)]
    [InlineData(0.0001, 200)]
    public void A_switch_moves_once_its_delay_has_passed(double dt, int steps)
    {
        var contact = new DelayedSwitch();
        for (int i = 1; i < steps; i++)
        {
            contact.Advance(true, 0.020, dt);
            Assert.False(contact.On);
        }

        contact.Advance(true, 0.020, dt);
        Assert.True(contact.On);
    }

    [Fact]
    public void A_command_withdrawn_starts_the_delay_again()
    {
        var contact = new DelayedSwitch();
        for (int i = 0; i < 50; i++)
        {
            contact.Advance(i % 10 != 9, 0.020, 0.002);
            Assert.False(contact.On);
        }
    }

    [Fact]
    public void Without_delay_it_follows_at_once()
    {
        var contact = new DelayedSwitch();
        contact.Advance(true, 0, 0.001);
        Assert.True(contact.On);
        contact.Advance(false, 0, 0.001);
        Assert.False(contact.On);
    }

    [Fact]
    public void A_switch_that_nobody_set_is_off() => Assert.False(default(DelayedSwitch).On);
}
