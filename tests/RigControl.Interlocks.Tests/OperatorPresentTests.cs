using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class OperatorPresentTests
{
    private const string Present = ChannelNames.OperatorPresent;

    private readonly Bench _bench = new(new OperatorPresentPlugin(), new OperatorPresentOptions(), DemandAction.StopOutput);

    [Fact]
    public void An_operator_at_the_bench_lets_the_rig_go_on()
    {
        _bench.Scan().Proceeds();
        Assert.Equal("an operator is at the bench", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-062")]
    [Fact]
    public void A_bench_that_the_operator_left_stops_the_output()
    {
        _bench.Set(Present, 0).Scan().Objects(DemandAction.StopOutput);
        Assert.Equal("no operator is at the bench: operator.present reads 0, not 1", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-062")]
    [Fact]
    public void A_presence_that_nobody_tells_of_counts_as_absence() => _bench.Bad(Present, BadCause.TooOld).Scan().Objects(DemandAction.StopOutput);
}
