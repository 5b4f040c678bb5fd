using System.Text.Json.Nodes;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Heat;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Tests.Heat;

public class WindingTemperatureTests
{
    /// <summary>Source: IEC 60034-1, 8.6.2 (formula from memory); motor/motor_examples.json, winding-rise-1 and -2 (numbers read).</summary>
    [Theory]
    [InlineData("winding-rise-1")]
    [InlineData("winding-rise-2")]
    public void The_rise_of_a_winding_is_that_of_the_worked_example(string id)
    {
        JsonNode example = Reference.Json("motor/motor_examples.json")["examples"]!.AsArray().Single(e => e!["id"]!.GetValue<string>() == id)!;
        JsonNode given = example["given"]!;
        Input Exact(string name) => new(name, Reference.Number(given, name), 0);
        Near.Relative(Reference.Number(example, "rise"), WindingTemperature.Rise(Exact("R1"), Exact("t1"), Exact("R2"), Exact("t2")).Value, 1e-9);
    }

    [Fact]
    public void A_warmer_room_at_the_end_takes_its_share_off_the_rise_and_none_off_the_temperature()
    {
        Input cold = new("cold", 0.1, 1e-4), at = new("room", 20, 0.5), hot = new("hot", 0.12, 1e-4);
        Measured rise = WindingTemperature.Rise(cold, at, hot, new Input("room later", 24, 0.5)), temperature = WindingTemperature.Of(cold, at, hot);
        Near.Relative(0.2 * 254.5 - 4, rise.Value, 1e-12);
        Near.Relative(rise.Value + 24, temperature.Value, 1e-12);
        Assert.Contains(rise.Budget, b => b.Name == "room later");
    }
}
