namespace RigControl.Documents.Tests.Corpus;

/// <summary>Rig files whose guard has one thing wrong.</summary>
public static class WrongGuards
{
    public static IReadOnlyList<Wrong> All { get; } =
    [
        new("a guard of an unknown kind",
            "kind: fixed", "kind: fixt", true,
            "19:9: `fixt` is not one of enterable, interlocked, fixed; write `fixed`"),
        new("an enclosure into which a person can get",
            "kind: fixed", "kind: enterable", true,
            "19:9: a person can get into the enclosure whole, and nothing here can see that nobody is inside; use an enclosure that nobody can get into, and write `interlocked` or `fixed`"),
        new("a guard without source",
            "  source: \"tried with the key\"\n", "", true,
            "19:3: the guard has no `source`; write `source:` and how these were measured, by whom and when, in quotes"),
        new("a fixed guard without opening time",
            "  opening-time: 20 s\n", "", true,
            "19:3: the guard has no `opening-time`; write `opening-time:` and a value from 0.1 s to 3600 s"),
        new("a fixed guard whose margin nobody has chosen",
            "  margin: 50 %\n", "", true,
            "19:3: the guard has no `margin`; write `margin:` and a value from 1 % to 1000 %"),
        new("a distance without the gap through which a hand is ahead",
            "  gap: 20 mm\n", "", true,
            "23:13: the guard has a `distance` and no `gap`; write `gap:` as well, or leave `distance` out"),
        new("a gap without a distance",
            "  distance: 400 mm\n", "", true,
            "23:8: the guard has a `gap` and no `distance`; write `distance:` as well, or leave `gap` out"),
        new("a distance in seconds",
            "distance: 400 mm", "distance: 4 s", true,
            "23:13: `4 s` has a unit of the wrong kind; write the value in m, mm, in or ft"),
        new("a release that says nothing of the coil",
            ", opens-coil: no", "", true,
            "25:22: the auxiliary release has no `opens-coil`; write `opens-coil:` and yes or no"),
        new("a release by hand in other words",
            "needs-tool: yes", "needs-tool: true", true,
            "25:36: `true` is neither yes nor no; write `yes`"),
        new("an unknown key of the guard",
            "opening-time:", "open-time:", true,
            "19:3: the guard has no `opening-time`; write `opening-time:` and a value from 0.1 s to 3600 s",
            "21:3: the guard knows no key `open-time`; write `opening-time`"),
    ];
}
