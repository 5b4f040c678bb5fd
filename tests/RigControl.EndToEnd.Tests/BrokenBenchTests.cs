using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>The failsafe of a simulated bench that is broken, verified as a person would.</summary>
public sealed class BrokenBenchTests : IDisposable
{
    private readonly Tool _tool = new();

    [Trait("Requirement", "SAF-081")]
    [Theory]
    [InlineData("contactor-welded-at: 1 ms", "over-speed")]
    [InlineData("controller-shorted-at: 1 ms", "stop-output-rests")]
    [InlineData("receiver-holds-at: 1 ms", "pulse-radio")]
    public void A_verification_of_a_broken_bench_ends_in_safe_stop_without_a_proof(string fault, string failing)
    {
        string rig = _tool.Write("broken.rig.yaml", ToolRuns.Changed("simulated.rig.yaml", "ambient: 20 degC", $"ambient: 20 degC, {fault}"));
        Said said = _tool.Run("failsafe", "--rig", rig, "--article", Path.Combine(Tool.Root, "procedures", "disc-180.article.yaml"), "--pace", "max", "--json");
        Assert.Equal(4, said.ExitCode);
        Assert.False(said.Json.GetProperty("proof").GetProperty("valid").GetBoolean());
        JsonElement first = said.Json.GetProperty("provocations").EnumerateArray().First(p => !p.GetProperty("passed").GetBoolean());
        Assert.Equal(failing, first.GetProperty("name").GetString());
    }

    public void Dispose() => _tool.Dispose();
}
