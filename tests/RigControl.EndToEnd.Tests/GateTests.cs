namespace RigControl.EndToEnd.Tests;

/// <summary>A robot under its own transmitter, on the simulated rig: recorded, and stopped like everything else.</summary>
public sealed class GateTests : IDisposable
{
    private const string Gated = """
        procedure: gated-drive
        requires: [lid-closed, failsafe-confirmed]
        steps:
          - arm:
          - gate: { for: 6 s }
          - coast-down: { timeout: 60 s }
        figures: [peak-speed]
        """;

    private readonly Tool _tool = new();

    [Fact]
    public void The_transmitter_drives_while_the_gate_is_open_and_the_run_has_its_figures()
    {
        Said run = _tool.Run("run", _tool.Write("gated.yaml", Gated), "--operator", "scripted", "--pace", "max", "--json");
        Assert.Equal((0, "completed"), (run.ExitCode, run.Json.GetProperty("outcome").GetString()));
        Assert.InRange(run.Json.GetProperty("figures")[0].GetProperty("value").GetDouble(), 4000, 6000);
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    [Fact]
    public void A_radio_lost_while_it_drives_ends_in_safe_stop_with_a_sentence()
    {
        Said run = _tool.Run(
            "run", _tool.Write("gated.yaml", Gated), "--rig", _tool.SimulatedRig("ambient: 20 degC", "ambient: 20 degC, radio-lost-at: 9 s"),
            "--article", Path.Combine(Tool.Root, "procedures", "disc-180.article.yaml"), "--operator", "scripted", "--pace", "max", "--json");
        Assert.Equal((4, "safe-stop"), (run.ExitCode, run.Json.GetProperty("outcome").GetString()));
        Assert.Equal("receiver", run.Json.GetProperty("trips")[0].GetProperty("interlock").GetString());
    }

    public void Dispose() => _tool.Dispose();
}
