using System.Text;
using RigControl.Board.Simulator.Line;

namespace RigControl.Board.Simulator.Reactions;

/// <summary>Measures every reaction over the servo frame and writes what was found as a table.</summary>
public static class ReactionTable
{
    /// <summary>Pulse rates tried, Hz.</summary>
    public static IReadOnlyList<int> Rates { get; } = [50, 400];

    /// <summary>Everything that must stop the output, and whether it is also tried with a host that has died before.</summary>
    public static IReadOnlyList<(Provocation Provocation, bool AlsoDead)> All { get; } =
    [
        (Provocation.LidOpens, true),
        (Provocation.StopPressed, true),
        (Provocation.HostSilent, false),
        (Provocation.OverSpeed, true),
        (Provocation.OverCurrent, true),
        (Provocation.TachometerLost, false),
        (Provocation.ContactorOpens, false),
        (Provocation.Hang, false),
        (Provocation.DeadHang, false),
    ];

    /// <summary>The configuration under which a pulse rate in Hz is tried: short times, so that many runs fit.</summary>
    public static BoardConfiguration Configuration(int rate) => new() { Rate = rate, TachometerLost = 60, ContactorTime = 40 };

    /// <summary>The worst of <paramref name="phases"/> runs, their events spread evenly over the servo frame.</summary>
    public static Measurement Worst(string firmware, Provocation provocation, int rate, bool hostAlive, int phases)
    {
        using var trial = new Trial(firmware, Configuration(rate));
        Measurement worst = default;
        for (int n = 0; n < phases; n++)
        {
            trial.Spin();
            worst = worst.Worse(trial.Measure(provocation, (n + 0.5) / phases, hostAlive));
        }

        return worst;
    }

    /// <summary>Measures everything and returns the page.</summary>
    public static string Measure(string firmware, int phases)
    {
        var page = new StringBuilder(Heading(phases));
        foreach ((Provocation provocation, bool alsoDead) in All)
            foreach (int rate in Rates)
                foreach (bool hostAlive in alsoDead ? new[] { true, false } : [true])
                    page.Append(Row(provocation, rate, hostAlive, Worst(firmware, provocation, rate, hostAlive, phases)));
        return page.ToString();
    }

    private static string Row(Provocation provocation, int rate, bool hostAlive, Measurement worst) => FormattableString.Invariant(
        $"| {provocation.Name} | {provocation.Event} | {rate} | {(hostAlive ? "alive" : "dead")} | {worst.Stop:F2} | {provocation.Allowed(Configuration(rate)):F1} | {worst.Wave:F2} | {worst.Coil:F2} |\n");

    private static string Heading(int phases) => $"""
        # Reactions of the rig board, measured on its firmware

        Written by `RigControl.Board.Simulator.Host --elf … --reactions FILE --phases {phases}`; do not edit by hand.

        The firmware that a real board runs, on a simulated ATmega328P at 16 MHz, counted in processor cycles. **These figures are
        nominal**: the crystal is exact, the watchdog's oscillator has its typical period (a real one is off by a tenth and more with
        temperature and supply), the contacts do not bounce, and the charge pump is a model ({1000 * Board.ChargePump.LongestHold:F1} ms from full to letting go).
        Measure a real board before you trust your hands to it.

        Each line is the worst of {phases} runs whose events were spread evenly over the servo frame. Before the event the board put out
        {Trial.SpinPulse} µs and held its contactor. *Host dead*: it had stopped talking 20 ms before the event. *Stop*: from the event to the falling edge of
        the first complete stop pulse, since only there a speed controller knows it; where the firmware hangs, to the last pulse.
        *Wave*: to the last rising edge of the power square wave. *Coil*: to the contactor's coil being let go by the charge pump;
        0 when it was let go before. All times in ms. *Allowed*: what the project demands for lid, stop, host silence and a hang; for the rest the
        configured time to be sure (tachometer {Configuration(Rates[0]).TachometerLost} ms, contactor {Configuration(Rates[0]).ContactorTime} ms, {Configuration(Rates[0]).CurrentReadings} current readings), a check or two of 1 ms, one frame and the longest pulse.

        | what happens | counted from | pulses a second | host | stop | allowed | wave | coil |
        |---|---|---:|---|---:|---:|---:|---:|

        """;
}
