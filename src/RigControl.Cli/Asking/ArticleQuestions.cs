using System.Globalization;

namespace RigControl.Cli.Asking;

/// <summary>Asks what an article file needs: controller, rotor, motor, pack and the three times.</summary>
internal static class ArticleQuestions
{
    private const string Trial = "Not in the manual? docs/first-session.md tells how to find it with the rotor off.";

    public static void Ask(Interview ask)
    {
        ask.Draft.Comment(0, "The thing under test, as its builder declares it. Keys, units and ranges: docs/procedure-files.md.");
        ask.Draft.Comment(0, "Check the controller's values with the rotor off (procedures/first-power.yaml) before anything is mounted.");
        ask.Draft.Line();
        ask.Value(0, "article", new("What is the article called?", "a name of a-z, 0-9 and -, such as bench-motor"));
        Controller(ask);
        Rotor(ask);
        Motor(ask);
        Pack(ask);
        Times(ask);
    }

    private static void Controller(Interview ask)
    {
        ask.Draft.Line();
        ask.Draft.Comment(0, "What the speed controller needs. Nothing here has a default: the pulse that stops one controller drives another at half throttle.");
        ask.Draft.Line("controller:");
        ask.Value(2, "mode", Question.Of("What does the speed controller do?",
            "one-way drives forward only, two-way also in reverse, servo holds a position.", "one-way", "two-way", "servo"));
        ask.Value(2, "direction", Question.Of("What does more throttle do to its pulse?",
            $"Nearly always longer. {Trial}", "longer", "shorter"), "what more throttle does to the pulse");
        ask.Value(2, "minimum", new("What is the shortest pulse of its range?", $"in us, as calibrated. {Trial}"));
        ask.Value(2, "maximum", new("What is the longest pulse of its range?", $"in us, as calibrated. {Trial}"));
        ask.Value(2, "stop", new("At which pulse does it drive nothing?",
            $"in us. One-way: the end of the range away from more throttle. Two-way: between the ends, nearly always the middle. {Trial}"), "drives nothing");
        ask.Value(2, "brakes-at-stop", Question.Of("Does it brake the motor at the stop pulse?",
            "A brake is a setting of the controller. Braked, there is no drag figure.", "yes", "no"), "a braked rotor gives no drag figure");
        ask.Value(2, "when-pulses-cease", Question.Of("What does it do when pulses cease?",
            "Write unknown until you have tried it with the rotor off: unknown counts as runs-on.", "unknown", "stops", "runs-on"), "unknown counts as runs-on");
        ask.Value(2, "arming-time", new("How long does it take at the stop pulse, after power-on, until it obeys?",
            "in s: from power-on to the last of its beeps, and a second more."), "at the stop pulse after power-on, until it obeys");
    }

    private static void Rotor(Interview ask)
    {
        ask.Draft.Line();
        if (!ask.Confirm("Is a rotor on the motor's shaft?", "Begin with no: a motor alone stores next to no energy, and everything else is the same."))
        {
            ask.Draft.Comment(0, "No rotor: leaving the key out declares that nothing is mounted.");
            return;
        }

        ask.Draft.Line("rotor:");
        string mass = ask.Value(2, "mass", new("What is the rotor's mass, with hub and screws?", "in g, kg, lb or oz, weighed."));
        string radius = ask.Value(2, "tip-radius", new("What is its largest radius, from the axis to the outermost point?", "in mm, in or m."));
        ask.Value(2, "inertia", new("What is its inertia about the axis?",
            $"in kg.m2 or g.mm2, from your drawing program or a swing test.{FlatDisc(mass, radius)}"), "about its axis");
        ask.Value(2, "maximum-speed", new("What is the highest speed that its builder allows?",
            "in rpm. Yours to say: material, fit and enclosure decide it, and this program does not know them."), "what its builder allows");
    }

    // A help with the sum, not an answer: only the builder knows whether it is a flat disc.
    private static string FlatDisc(string mass, string radius) =>
        Number(mass, "g", 0.001) is { } m && Number(radius, "mm", 0.001) is { } r
            ? string.Create(CultureInfo.InvariantCulture, $" A flat disc of this mass and radius has {m * r * r / 2:0.#####e0} kg.m2 (half of mass times radius squared); a bar or a ring has not.")
            : "";

    private static double? Number(string text, string unit, double factor) =>
        text.EndsWith($" {unit}", StringComparison.Ordinal) && double.TryParse(text[..^(unit.Length + 1)], NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
            ? value * factor
            : null;

    private static void Motor(Interview ask)
    {
        ask.Draft.Line();
        if (!ask.Confirm("Do you know the motor's data?", "Speed constant, resistance, no-load current. Without them nothing is predicted; procedures/motor-constants.yaml measures them."))
        {
            ask.Draft.Comment(0, "motor: left out until kv, winding-resistance, no-load-current and current-limit are known.");
            return;
        }

        ask.Draft.Line("motor:");
        ask.Value(2, "kv", new("What is its speed constant?", "in rpm/V."));
        ask.Value(2, "winding-resistance", new("What is its resistance from terminal to terminal?", "in mOhm or Ohm."));
        ask.Value(2, "no-load-current", new("What current does it take with nothing on its shaft?", "in A."));
        ask.Value(2, "current-limit", new("At what current does the speed controller limit?", "in A, as set in the controller."), "set in the controller");
    }

    private static void Pack(Interview ask)
    {
        ask.Draft.Line();
        if (!ask.Confirm("Do you know the pack's data?", "Chemistry, cells, capacity, resistance: for predictions and for the share of a pack used."))
        {
            ask.Draft.Comment(0, "pack: left out until chemistry, cells, capacity and resistance are known.");
            return;
        }

        ask.Draft.Line("pack:");
        ask.Value(2, "chemistry", Question.Of("What are its cells made of?", "", "LiPo", "LiHV", "LiIon", "LiFePO4", "NiMH", "NiCd", "lead-acid"));
        ask.Value(2, "cells", new("How many cells are in series?", "such as 3S or 4S."));
        ask.Value(2, "capacity", new("What is its capacity?", "in mAh or Ah, as printed on it."));
        ask.Value(2, "resistance", new("What is the resistance of the whole pack?", "in mOhm, from a charger that shows it, all cells added."));
    }

    private static void Times(Interview ask)
    {
        ask.Draft.Line();
        ask.Value(0, "stopping-time", new("After a stop that did not cut the power, how soon shall the power go off?",
            "in s, 0 s to 10 s. Long enough for the controller to stop the motor by itself; 0 s for at once."), "in a safe-stop that did not cut the power, it goes off after this");
        ask.Value(0, "longest-coast-down", new("What is the longest that it can take to stand still?",
            "in s, from full speed. How long everybody stays away where no speed can be read: when in doubt, longer."), "how long to stay away where no speed can be read");
        ask.Value(0, "fastest-rise", new("How fast may the throttle rise, from stop to full at the fastest?",
            "in s. The program never raises it faster, whatever a procedure says."), "from stop to full throttle, never faster");
    }
}
