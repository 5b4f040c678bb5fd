using RigControl.Analysis.Speed;

namespace RigControl.Analysis.Tests.Speed;

public class RememberedRisesTests
{
    [Fact]
    public void A_rise_is_simulated_once_for_the_same_parameters_and_anew_for_others()
    {
        RememberedRises rises = new();
        int simulated = 0;
        double[] Simulate(double[] parameters) => [parameters[0], ++simulated];
        Assert.Equal([3, 1], rises.Of([3, 4], Simulate));
        Assert.Equal([3, 1], rises.Of([3, 4], Simulate));
        Assert.Equal([3, 2], rises.Of([3, 5], Simulate));
        Assert.Equal([3, 1], rises.Of([3, 4], Simulate));
    }

    [Fact]
    public void What_is_changed_by_whoever_asked_afterwards_is_not_taken_for_what_was_asked()
    {
        RememberedRises rises = new();
        double[] asked = [1];
        Assert.Equal([10], rises.Of(asked, p => [10 * p[0]]));
        asked[0] = 2;
        Assert.Equal([20], rises.Of(asked, p => [10 * p[0]]));
    }

    [Fact]
    public void The_oldest_goes_where_there_are_too_many()
    {
        RememberedRises rises = new();
        int simulated = 0;
        for (int round = 0; round < 2; round++)
        {
            for (int i = 0; i < 40; i++)
                rises.Of([i], p => [++simulated]);
        }

        Assert.Equal(80, simulated);
        rises.Of([39], p => [++simulated]);
        Assert.Equal(80, simulated);
    }
}
