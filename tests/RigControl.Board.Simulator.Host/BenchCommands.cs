using RigControl.Board.Simulator.Bench;
using RigControl.Board.Simulator.Board;
using RigControl.Physics;

namespace RigControl.Board.Simulator.Host;

/// <summary>What a person, or bad luck, can do to the bench while the program runs.</summary>
public static class BenchCommands
{
    /// <summary>The command that disturbs the line instead of the bench.</summary>
    public const string Noise = "noise";

    private static readonly SortedDictionary<string, Action<BoardOnBench>> Acts = new(StringComparer.Ordinal)
    {
        ["lid open"] = rig => rig.Bench.Faults.LidForced = true,
        ["lid closed"] = rig => rig.Bench.Faults.LidForced = rig.Bench.Faults.LidPulled = false,
        ["lid pull"] = rig => rig.Bench.Faults.LidPulled = true,
        ["lid-a broken"] = rig => rig.Bench.Faults.LidContactA = ContactFault.StuckOpen,
        ["lid-a mended"] = rig => rig.Bench.Faults.LidContactA = ContactFault.None,
        ["lid-b bridged"] = rig => rig.Bench.Faults.LidContactB = ContactFault.StuckClosed,
        ["lid-b mended"] = rig => rig.Bench.Faults.LidContactB = ContactFault.None,
        ["stop press"] = rig => rig.Bench.Faults.StopPressed = true,
        ["stop release"] = rig => rig.Bench.Faults.StopPressed = false,
        ["key close"] = rig => rig.KeyClosed = true,
        ["key open"] = rig => rig.KeyClosed = false,
        ["key turn"] = rig => rig.TurnKey(),
        ["radio off"] = rig => rig.Bench.Faults.RadioLost = true,
        ["radio on"] = rig => rig.Bench.Faults.RadioLost = false,
        ["stick open"] = rig => rig.PushStick(1100),
        ["stick stop"] = rig => rig.ReleaseStick(),
        ["tachometer silent"] = rig => rig.Bench.Faults.Tachometer = TachometerFault.Silent,
        ["tachometer doubled"] = rig => rig.Bench.Faults.Tachometer = TachometerFault.Doubled,
        ["tachometer mended"] = rig => rig.Bench.Faults.Tachometer = TachometerFault.None,
        ["contactor weld"] = rig => rig.Bench.Faults.ContactorWelded = true,
        ["contactor dead"] = rig => rig.Bench.Faults.ContactorDead = true,
        ["contactor mended"] = rig => rig.Bench.Faults.ContactorWelded = rig.Bench.Faults.ContactorDead = false,
        ["controller runaway"] = rig => rig.Bench.Faults.ControllerRunaway = true,
        ["controller mended"] = rig => rig.Bench.Faults.ControllerRunaway = false,
        ["rotor jam"] = rig => rig.Bench.Faults.RotorJammed = true,
        ["rotor free"] = rig => rig.Bench.Faults.RotorJammed = false,
        ["hang"] = rig => rig.Board.Hang(),
        ["hang dead"] = rig => rig.Board.Hang(interruptsOn: false),
        ["reset"] = rig => rig.Board.Reset(ResetCause.ResetPin),
        ["reset power"] = rig => rig.Board.Reset(ResetCause.PowerOn),
        ["reset brown-out"] = rig => rig.Board.Reset(ResetCause.BrownOut),
    };

    /// <summary>Does what a line says and returns the answer, one line.</summary>
    public static string Obey(BoardOnBench rig, string line)
    {
        string order = string.Join(' ', line.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        if (order == "status")
            return Status(rig);
        if (!Acts.TryGetValue(order, out Action<BoardOnBench>? act))
            return $"unknown: {order}; known are: status, {Noise}, {string.Join(", ", Acts.Keys)}";
        rig.Change(act);
        return $"ok: {order}";
    }

    private static string Status(BoardOnBench rig)
    {
        ref readonly BenchTruth truth = ref rig.Bench.Truth;
        double rpm = truth.Speed * 60 / (2 * Math.PI);
        return FormattableString.Invariant(
            $"status: time {BoardClock.Seconds(rig.Board.Cycle):F3} s, speed {rpm:F1} rpm, pulse {rig.Pins.LastPulse.Microseconds:F1} us, ")
            + FormattableString.Invariant($"coil {Word(rig.Pins.Pump.Holding)}, contactor {Word(truth.ContactorClosed)}, lid {Word(truth.LidClosed)}, ")
            + FormattableString.Invariant($"bolt {Word(truth.BoltHome)}, pack {truth.PackVoltage:F2} V {truth.PackCurrent:F2} A, ")
            + FormattableString.Invariant($"case {truth.CaseTemperature:F1} degC, watchdog resets {rig.Board.WatchdogResets}, bytes lost {rig.Board.BytesLost}");
    }

    private static string Word(bool value) => value ? "1" : "0";
}
