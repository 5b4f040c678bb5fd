using RigControl.Documents.Procedures;

namespace RigControl.Cli.Asking;

/// <summary>Asks for a procedure of the plain shape: arm, spin up, hold, coast down, rest.</summary>
internal static class ProcedureQuestions
{
    public static void Ask(Interview ask)
    {
        ask.Draft.Comment(0, "What is done, step by step. Keys, units and ranges: docs/procedure-files.md. Rehearse it on the simulated rig first.");
        ask.Draft.Line();
        ask.Value(0, "procedure", new("What is the procedure called?", "a name of a-z, 0-9 and -, such as half-throttle"));
        ask.Draft.Line();
        ask.Value(0, "repeat", new("How often shall it be done?", "1 to 1000. A single run says nothing about how well it repeats; three is a good beginning."));
        ask.List(0, "requires", new("Without which interlocks may no rig run it?",
            "ids of the rig file with commas between, such as lid-closed, lid-locked, stop-clear; or none. Everything else that the rig has counts as well."),
            "a rig without these may not run it");
        ask.Draft.Line();
        ask.Draft.Line("steps:");
        Arm(ask);
        SpinUp(ask);
        Hold(ask);
        CoastDown(ask);
        Rest(ask);
        ask.Draft.Line();
        ask.List(0, "figures", new("Which figures do you want at the end?", $"names with commas between, or none: {string.Join(", ", FigureNames.All)}."));
    }

    private static void Arm(Interview ask)
    {
        ask.Draft.Comment(2, "Power on, output at stop. From the operator's arm to a controller that is ready.");
        ask.Draft.Line("  - arm:");
        ask.Value(6, "within", new("How long may it take from arming to a controller that is ready?", "in s, 1 s to 600 s, longer than the controller's arming time."));
        ask.Draft.Line();
    }

    private static void SpinUp(Interview ask)
    {
        bool speed = ask.Confirm("Does the rig read the rotor's speed?", "With it a spin-up ends when the speed has settled, without it when the throttle is there.");
        ask.Draft.Comment(2, speed ? "Up to the level, then on until the speed has settled." : "Up to the level; no speed is read.");
        ask.Draft.Line("  - spin-up:");
        string throttle = ask.Value(6, "throttle", new("To which throttle shall it rise?", "in %. Begin low."));
        ask.Value(6, "ramp", new("In what time shall it rise?", "in s, 0 s to 600 s."));
        ask.Draft.Line("      until:");
        ask.Draft.Line(speed ? "        channel: rotor.speed" : "        channel: output.throttle");
        if (speed)
        {
            ask.Value(8, "steady-within", new("Within which band counts the speed as settled?", "in % of it, or in rpm; narrower than a rotor's own wobble never ends.") { Usual = "1 %" });
            ask.Value(8, "for", new("For how long must it stay there?", "in s.") { Usual = "0.5 s" });
        }
        else
        {
            ask.Draft.Line($"        {(throttle.StartsWith('-') ? "below" : "above")}: {Nearly(throttle)}");
        }

        ask.Value(6, "timeout", new("After what time is it stopped if it has not got there?", "in s, longer than the ramp. What has not settled by then is not what was declared."));
        ask.Draft.Line();
    }

    // A read-back that rounds must still be able to pass the level.
    private static string Nearly(string throttle) =>
        double.TryParse(throttle.TrimEnd('%', ' '), System.Globalization.CultureInfo.InvariantCulture, out double level)
            ? FormattableString.Invariant($"{level * 0.98:0.##} %")
            : throttle;

    private static void Hold(Interview ask)
    {
        ask.Draft.Comment(2, "Steady running, from which steady speed and mean values are taken.");
        ask.Draft.Line("  - hold:");
        ask.Value(6, "for", new("How long shall the level be held?", "in s."));
        ask.Draft.Line();
    }

    private static void CoastDown(Interview ask)
    {
        ask.Draft.Comment(2, "Output at stop. Without a condition it ends at 60 rpm.");
        ask.Draft.Line("  - coast-down:");
        ask.Value(6, "timeout", new("Within what time must it have run down?", "in s. A rotor that still turns then is a trip."));
        ask.Draft.Line();
    }

    private static void Rest(Interview ask)
    {
        ask.Draft.Comment(2, "Nothing energised, so that every repeat begins alike.");
        ask.Draft.Line("  - rest:");
        ask.Value(6, "for", new("How long shall it rest before the next repeat?", "in s."));
    }
}
