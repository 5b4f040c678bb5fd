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
        (Provocation.LidContactA, true),
        (Provocation.LidContactB, true),
        (Provocation.StopPressed, true),
        (Provocation.HostSilent, false),
        (Provocation.OverSpeed, true),
        (Provocation.OverCurrent, true),
        (Provocation.TachometerLost, false),
        (Provocation.ContactorOpens, false),
        (Provocation.ConverterStandsStill, false),
        (Provocation.ReceiverSilent, false),
        (Provocation.ReceiverAstray, false),
        (Provocation.Hang, false),
        (Provocation.DeadHang, false),
        (Provocation.LidOpens.OnSecond(), false),
        (Provocation.HostSilent.OnSecond(), false),
        (Provocation.Hang.OnSecond(), false),
        (Provocation.DeadHang.OnSecond(), false),
    ];

    /// <summary>The configuration under which a pulse rate in Hz is tried: short times, so that many runs fit.</summary>
    public static BoardConfiguration Configuration(int rate) => new() { Rate = rate, TachometerLost = 60, ContactorTime = 40 };

    /// <summary>The worst of <paramref name="phases"/> runs, their events spread evenly over the servo frame.</summary>
    public static Measurement Worst(string firmware, Provocation provocation, int rate, bool hostAlive, int phases)
    {
        using var trial = new Trial(firmware, provocation.Output.On(Configuration(rate)));
        Measurement worst = default;
        for (int n = 0; n < phases; n++)
        {
            provocation.Output.Spin(trial);
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
        return page.Append(Lacking).ToString();
    }

    private static string Row(Provocation provocation, int rate, bool hostAlive, Measurement worst) => FormattableString.Invariant(
        $"| {provocation.Name} | {provocation.Event} | {rate} | {(hostAlive ? "alive" : "dead")} | {worst.Stop:F2} | {provocation.Allowed(Configuration(rate)):F1} | {worst.Wave:F2} | {worst.Coil:F2} |\n");

    private static string Lacking => """

        ## What has no line

        - **The lid's pair.** Contacts that disagree have one of them open, and the open one stops the output at once: those are the lines of the two
          contacts. What latches after the configured time (`lidpair`) stops nothing more; it keeps a board from being reset until both have been open together.
        - **Start and self-test.** Nothing is driven when a board starts, and a configuration is refused while anything is. What a restart puts
          out is held by tests.
        - **The arm key, the bolt, voltage and temperature.** The firmware reads them and stops at none of them: that is the host's.
        - **A converter that is switched off,** in place of one whose conversion does not end. By the firmware's text it would go on taking its last
          result for a new one, so that neither `sampler` nor `current` would see it; not measured.
        - **A host that dies first,** but for lid, stop, over-speed and over-current. Where the reaction takes longer than what is left of the host's own
          100 ms, its silence would stop the output before; with a converter that stands still, a pulse that is too long and on the second output it was not tried.

        """;

    private static string Heading(int phases) => $"""
        # Reactions of the rig board, measured on its firmware

        Written by `RigControl.Board.Simulator.Host --elf … --reactions FILE --phases {phases}`; do not edit by hand.

        The firmware that a real board runs, on a simulated ATmega328P at 16 MHz, counted in processor cycles. **These figures are
        nominal**: the crystal is exact, the watchdog's oscillator has its typical period (a real one is off by a tenth and more with
        temperature and supply), the contacts do not bounce, and the charge pump is a model ({1000 * Board.ChargePump.LongestHold:F1} ms from full to letting go).
        Measure a real board before you trust your hands to it.

        Each line is the worst of {phases} runs whose events were spread evenly over the servo frame. Before the event the board put out
        {Trial.SpinPulse} µs and held its contactor. *Gate open*: that pulse was the receiver's. *Second output*: what is told is that output's own
        pulse, {OutputPin.Second.Driven} µs before the event. *Host dead*: it had stopped talking 20 ms before the event. *Stop*: from the event to the
        falling edge of the first complete stop pulse, since only there a speed controller knows it; where the firmware hangs, to the last pulse.
        *Wave*: to the last rising edge of the power square wave. *Coil*: to the contactor's coil being let go by the charge pump;
        0 when it was let go before. All times in ms. *Allowed*: what the project demands for lid, stop, host silence and a hang; for the rest the
        time to be sure (as configured: tachometer {Configuration(Rates[0]).TachometerLost} ms, contactor {Configuration(Rates[0]).ContactorTime} ms, {Configuration(Rates[0]).CurrentReadings} current readings; the firmware's own: receiver 100 ms,
        converter 5 ms), a check or two of 1 ms, one frame and the longest pulse.

        | what happens | counted from | pulses a second | host | stop | allowed | wave | coil |
        |---|---|---:|---|---:|---:|---:|---:|

        """;
}
