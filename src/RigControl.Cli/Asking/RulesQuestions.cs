namespace RigControl.Cli.Asking;

/// <summary>Asks for limits that the builder copies from the rules of an event. Nothing is suggested.</summary>
internal static class RulesQuestions
{
    private static readonly (string Key, string What, string Unit)[] Kinds =
    [
        ("class-mass", "a mass of the whole robot", "in g, kg, lb or oz."),
        ("tip-speed", "a speed at the weapon's tip", "in m/s, km/h, mph or ft/s."),
        ("stopping-time", "a time from the stop to a weapon at rest", "in s."),
        ("voltage", "a voltage on board", "in V."),
    ];

    public static void Ask(Interview ask)
    {
        ask.Draft.Comment(0, "Limits copied from the rules of an event, each with where it stands and the day of the edition.");
        ask.Draft.Comment(0, "Rules change: compare them with the edition in force before each event.");
        ask.Draft.Line();
        ask.Value(0, "rules", new("What is this set of limits called?", "a name of a-z, 0-9 and -, such as club-evening"));
        ask.Draft.Line();
        List<(string Key, string What, string Unit)> limited = [.. Kinds.Where(k => ask.Confirm($"Do the rules limit {k.What}?", "Have the rules before you; nothing is known here by itself."))];
        ask.Draft.Line(limited.Count == 0 ? "limits: {}" : "limits:");
        foreach ((string key, string what, string unit) in limited)
        {
            ask.Draft.Line($"  {key}:");
            ask.Value(4, "value", new($"What is the limit: {what}?", unit));
            ask.Text(4, "source", new("Where does it stand?", "title of the rules, section or page, in your words."));
            ask.Value(4, "date", new("Of which day is that edition?", "year-month-day, such as 2026-05-31."));
        }
    }
}
