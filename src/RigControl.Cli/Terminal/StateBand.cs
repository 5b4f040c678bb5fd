using RigControl.Model.Records;
using RigControl.Model.Rig;
using Spectre.Console;

namespace RigControl.Cli.Terminal;

/// <summary>
/// The state in large letters on a band of its own colours, so that it is the same on a light and on a dark terminal, and what
/// it means for the people in the room. The word tells it without the colour.
/// </summary>
internal static class StateBand
{
    public static IEnumerable<Line> Of(in ScanRecord record, int width, char cell)
    {
        bool gate = record.Outputs.Gate;
        (string word, Style style) = gate ? ("GATE OPEN", Band(Color.Black, 208)) : Word(record);
        string[] rows = [.. BigLetters.Of(word, width - 2, cell), gate ? "KEEP CLEAR: the transmitter drives" : Meaning(record)];
        return rows.Select(row => new Line($" {row}".PadRight(width), style));
    }

    private static (string Word, Style Style) Word(in ScanRecord record) => record.State switch
    {
        RigState.SafeStop => ("SAFE-STOP", Band(Color.White, 160)),
        RigState.Idle => ("IDLE", Band(Color.White, 22)),
        _ when record.Phase == ArmingPhase.Warning => ("WARNING", Band(Color.Black, 208)),
        RigState.Arming when record.Phase == ArmingPhase.AwaitingStart => ("READY", Band(Color.Black, 220)),
        RigState.Arming => ("ARMING", Band(Color.Black, 220)),
        RigState.SpinUp => ("SPIN-UP", Band(Color.Black, 208)),
        RigState.Hold => ("HOLD", Band(Color.Black, 208)),
        _ => ("COAST-DOWN", Band(Color.Black, 220)),
    };

    private static string Meaning(in ScanRecord record) => record.State switch
    {
        RigState.SafeStop when record.AtStandstill => "output stopped, the rotor stands",
        RigState.SafeStop or RigState.Idle when record.AwaitsLook => "LOOK whether it stands, in a light that does not flicker; lid stays shut",
        RigState.SafeStop => "output stopped; THE ROTOR MAY STILL TURN: lid stays shut",
        RigState.Idle when record.AtStandstill => "nothing is energised, the rotor stands",
        RigState.Idle => "nothing is energised; the rotor is not proven to stand",
        RigState.Arming when record.Phase == ArmingPhase.AwaitingStart => "POWER IS ON: keep clear; nothing turns before the start",
        RigState.Arming when record.Phase == ArmingPhase.Warning => "KEEP CLEAR: it turns in a moment",
        RigState.Arming => "POWER IS ON: keep clear; the controller is made ready",
        _ when record.Phase == ArmingPhase.Warning => "KEEP CLEAR: it turns, and goes faster in a moment",
        RigState.CoastDown => "KEEP CLEAR: the rotor runs down under power",
        _ => "KEEP CLEAR: it turns",
    };

    private static Style Band(Color letters, byte background) => new(letters, Color.FromInt32(background), Decoration.Bold);
}
