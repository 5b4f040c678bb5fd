using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;

namespace RigControl.Board.Tests.Reactions;

/// <summary>Each reaction, over the whole servo frame, from the event to the falling edge of the first complete stop pulse.</summary>
public sealed class ReactionTests(ITestOutputHelper output)
{
    [Fact]
    public void Probe()
    {
        foreach (int rate in new[] { 400, 50 })
        {
            using var trial = new Trial(Programs.Firmware, new BoardConfiguration { Rate = rate });
            foreach (Provocation p in new[] { Provocation.LidOpens, Provocation.StopPressed, Provocation.HostSilent, Provocation.OverSpeed, Provocation.OverCurrent, Provocation.TachometerLost, Provocation.ContactorOpens, Provocation.Hang, Provocation.DeadHang })
                try
                {
                    trial.Spin();
                    output.WriteLine($"{p.Name} {rate} {trial.Measure(p, 0.3, true)} allowed {p.Allowed(rate)} {trial.Host.Status?.Latched}");
                }
                catch (Exception e) { output.WriteLine($"{p.Name} {rate} {e.Message} {e.StackTrace}"); foreach (var l in trial.Host.Heard.TakeLast(5)) output.WriteLine(l.Word + " " + string.Join(' ', l.Fields)); }
        }
    }
}
