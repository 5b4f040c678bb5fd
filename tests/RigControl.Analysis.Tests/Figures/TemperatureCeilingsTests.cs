using RigControl.Analysis.Figures;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Figures;

public class TemperatureCeilingsTests
{
    [Fact]
    public void The_ceilings_of_a_rig_are_the_limits_and_of_two_for_a_channel_the_lower_counts()
    {
        IReadOnlyDictionary<string, double> ceilings = TemperatureCeilings.Of(Rig(
            Interlock("temperature-ceiling", "motor.temperature", 80), Interlock("temperature-ceiling", "motor.temperature", 70), Interlock("over-speed", "rotor.speed", 9000)));
        Assert.Equal([new("motor.temperature", 70)], ceilings);
    }

    [Fact]
    public void A_rig_without_a_ceiling_limits_nothing() => Assert.Empty(TemperatureCeilings.Of(Rig()));

    private static InterlockDefinition Interlock(string plugin, string channel, double ceiling) =>
        new($"{plugin}-{ceiling:0}", plugin, new Dictionary<string, object> { ["channel"] = channel, ["ceiling"] = ceiling }, null, null, InterlockScope.EveryStep);

    private static RigDefinition Rig(params InterlockDefinition[] interlocks) => new()
    {
        Name = "box", ScanPeriod = TimeSpan.FromMilliseconds(5), Devices = [], Interlocks = interlocks, StandstillSpeed = 60, StandstillTime = TimeSpan.FromSeconds(1),
    };
}
