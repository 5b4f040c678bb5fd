using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;

namespace RigControl.Board.Simulator.Reactions;

/// <summary>A board under drive on the stand, again and again: spin, provoke, measure, put in order.</summary>
public sealed class Trial : IDisposable
{
    /// <summary>Pulse while spinning, µs.</summary>
    public const int SpinPulse = 1600;

    /// <summary>One revolution while spinning, µs; twice the limit of the default configuration.</summary>
    public const double SpinRevolution = 6000;

    /// <summary>The stick at stop when the gate opens, µs: not exactly there, as no stick is.</summary>
    private const double StickAtStop = 1004;

    private const double LeadMilliseconds = 25;
    private const double QuietMilliseconds = 20;
    private const double LidOpenMilliseconds = 5;

    /// <summary>Time for which only stop pulses may follow: two frames at 50 Hz.</summary>
    private const double AftermathMilliseconds = 40;

    private uint resets;

    /// <summary>Powers a board up with <paramref name="firmware"/>, loads the configuration and clears every cause.</summary>
    public Trial(string firmware, BoardConfiguration configuration)
    {
        Stand = new Stand(firmware);
        Host = new LineHost(Stand, configuration);
        Host.Load();
    }

    /// <summary>The stand with the board.</summary>
    public Stand Stand { get; }

    /// <summary>The host.</summary>
    public LineHost Host { get; }

    /// <summary>Cycles between two servo pulses.</summary>
    public ulong Frame => BoardClock.Frequency / (ulong)Host.Configuration.Rate;

    /// <summary>Puts everything in order, resets, closes the contactor and spins.</summary>
    public void Spin()
    {
        Clear();
        Host.Power = true;
        Host.RunTo("the contactor closes", () => Host.Status!.Bits.HasFlag(StatusBits.Contactor));
        Stand.Turn(SpinRevolution);
        Host.Pulse = SpinPulse;
        Host.RunTo("the board spins", () => Host.Status!.Mode == "spin" && Host.Status.Measured != 0);
    }

    /// <summary>The same with the pulse that the receiver gives through the gate.</summary>
    public void SpinThroughGate(int pulse)
    {
        Stand.Receive(StickAtStop);
        Clear();
        Host.Power = true;
        Host.RunTo("the contactor closes", () => Host.Status!.Bits.HasFlag(StatusBits.Contactor));
        Stand.Turn(SpinRevolution);
        Host.Gate = true;
        Host.RunTo("the gate opens", () => Host.Status!.Bits.HasFlag(StatusBits.Gate));
        Stand.Receive(pulse);
        Host.RunTo("the board spins", () => Host.Status!.Mode == "spin" && Math.Abs(Host.Status.Receiver - pulse) < OutputPin.Gated.Tolerance);
    }

    /// <summary>Spins on both outputs.</summary>
    public void SpinSecond(int pulse)
    {
        Spin();
        Host.Second = pulse;
        Host.RunTo("the second output spins", () => Host.Status!.Second == pulse);
    }

    /// <summary>Puts everything in order and resets: the board puts out the stop pulse without power.</summary>
    public void Clear()
    {
        Stand.Heal();
        Stand.Turn(0);
        (Host.Pulse, Host.Power, Host.Release, Host.Speaking, Host.Listening) = (Host.Configuration.StopPulse, false, false, true, true);
        (Host.Second, Host.Gate) = (Host.Configuration.Second?.Stop ?? 0, false);
        if (resets != Stand.Board.WatchdogResets)
            Host.Load();
        resets = Stand.Board.WatchdogResets;
        OpenBothLidContacts();
        Host.Run(Host.Configuration.ClosingFilter + 20);
        Host.RunTo("the contactor opens", () => !Host.Status!.Bits.HasFlag(StatusBits.Contactor));
        Host.Reset();
    }

    /// <summary>Provokes a reaction at a share of the servo frame and measures it.</summary>
    /// <exception cref="BoardException">The board did not react, or put out a pulse that nobody demanded.</exception>
    public Measurement Measure(Provocation provocation, double phase, bool hostAlive)
    {
        ulong target = Stand.Pins.LastRise + Frame * (1 + BoardClock.Cycles(LeadMilliseconds / 1000) / Frame) + (ulong)(phase * Frame);
        Host.RunUntil(target - BoardClock.Cycles(QuietMilliseconds / 1000));
        Host.Speaking = hostAlive;
        Host.RunUntil(target);
        Stand.Pins.Clear();
        ulong at = provocation.Provoke(this);
        Host.Run(provocation.Allowed(Host.Configuration) + AftermathMilliseconds);
        ulong wave = Stand.Pins.PowerRises.LastOrDefault(at);
        return new Measurement(Since(at, Reacted(provocation, at)), Since(at, wave), Since(at, Released(provocation)));
    }

    /// <inheritdoc/>
    public void Dispose() => Stand.Dispose();

    // A pair that disagreed is believed again only when both have been seen open.
    private void OpenBothLidContacts()
    {
        if (Host.Status?.Latched.HasFlag(Causes.LidPair) != true)
            return;
        Stand.Lid(closed: false);
        Host.Run(LidOpenMilliseconds);
        Stand.Lid(closed: true);
    }

    private static double Since(ulong at, ulong cycle) => cycle > at ? BoardClock.Milliseconds(cycle - at) : 0;

    private ulong Released(Provocation provocation) => Stand.Pins.Pump.Holding
        ? throw new BoardException($"{provocation.Name}: the coil is still held.")
        : Stand.Pins.Pump.ReleasedAt;

    private ulong Reacted(Provocation provocation, ulong at)
    {
        List<Pulse> pulses = provocation.Output.Pulses(Stand.Pins).FindAll(pulse => pulse.Fall > at);
        return provocation.Ceases || Host.Configuration.Ceases ? LastPulse(provocation, at, pulses) : FirstStop(provocation, pulses);
    }

    private ulong LastPulse(Provocation provocation, ulong at, List<Pulse> pulses)
    {
        ulong last = pulses.Count > 0 ? pulses[^1].Fall : at;
        return !Stand.Board.Output(provocation.Output.Pin) && Stand.Board.Cycle - last > 2 * Frame
            ? last
            : throw new BoardException($"{provocation.Name}: pulses have not ceased.");
    }

    private ulong FirstStop(Provocation provocation, List<Pulse> pulses)
    {
        OutputPin output = provocation.Output;
        int first = pulses.FindIndex(IsStop);
        if (first < 0)
            throw new BoardException($"{provocation.Name}: no stop pulse came.");
        if (pulses.Take(first).Any(pulse => !IsDriven(pulse)) || pulses.Skip(first).Any(pulse => !IsStop(pulse)))
            throw new BoardException($"{provocation.Name}: pulses {string.Join(' ', pulses.Select(pulse => pulse.Microseconds))} µs.");
        return pulses[first].Fall;
        bool IsStop(Pulse pulse) => Math.Abs(pulse.Microseconds - output.StopOf(Host.Configuration)) <= output.StopTolerance;
        bool IsDriven(Pulse pulse) => Math.Abs(pulse.Microseconds - output.Driven) <= output.Tolerance;
    }
}
