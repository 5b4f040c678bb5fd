namespace RigControl.Documents.Tests.Corpus;

/// <summary>Rules files with one thing wrong.</summary>
public static class WrongRules
{
    public static IReadOnlyList<Wrong> All { get; } =
    [
        new("a limit without source",
            "value: 1.5 kg, source: \"handbook, page 3\"", "value: 1.5 kg", true,
            "3:15: the limit class-mass has no `source`; write `source:` and where the limit stands, in quotes"),
        new("a limit without date",
            "page 3\", date: 2026-05-31", "page 3\"", true,
            "3:15: the limit class-mass has no `date`; write `date:` and the day of the rules it was copied from, such as `2026-05-31`"),
        new("a limit without value",
            "value: 50 m/s\n    source", "source", true,
            "5:5: the limit tip-speed has no `value`; write `value:` and a value from 0.1 m/s to 1000 m/s"),
        new("a day that no calendar has",
            "page 3\", date: 2026-05-31", "page 3\", date: 2026-02-30", false,
            "3:66: `2026-02-30` is not a day; write the day of the rules it was copied from, such as `2026-05-31`"),
        new("a day written the other way round",
            "page 3\", date: 2026-05-31", "page 3\", date: 31.5.2026", true,
            "3:66: `31.5.2026` is not a day; write the day of the rules it was copied from, such as `2026-05-31`"),
        new("a speed in turns",
            "value: 50 m/s", "value: 9000 rpm", true,
            "5:12: `9000 rpm` has a unit of the wrong kind; write the value in m/s, km/h, mph or ft/s"),
        new("a mass without unit",
            "value: 1.5 kg", "value: 1.5", true,
            "3:24: `1.5` has no unit; write `1.5 kg`, `1.5 g`, `1.5 lb` or `1.5 oz`, whichever it is"),
        new("a mass of nothing",
            "value: 1.5 kg", "value: 0 kg", false,
            "3:24: `0 kg` is out of range; write a value from 0.01 kg to 1000 kg"),
        new("a limit of an unknown kind",
            "tip-speed:", "tip-sped:", true,
            "4:3: the limits knows no key `tip-sped`; write `tip-speed`"),
        new("no limits at all",
            "limits:", "limit:", true,
            "1:1: the rules file has no `limits`; write `limits:` and the limits, or `{}` for none yet",
            "2:1: the rules file knows no key `limit`; write `limits`"),
    ];
}
