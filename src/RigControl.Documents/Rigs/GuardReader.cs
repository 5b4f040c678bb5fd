using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Rigs;

/// <summary>Reads what a rig file declares of the guard around the rotor.</summary>
internal static class GuardReader
{
    private const string SourceDue = "how these were measured, by whom and when, in quotes";

    private static readonly Bounds OpeningTime = new("s", 0.1, 3600);
    private static readonly Bounds Margin = new("%", 1, 1000);
    private static readonly Bounds Distance = new("m", 0.01, 10);
    private static readonly Bounds Gap = new("m", 0.001, 1);

    public static GuardDefinition? Read(Node? node, ProblemList problems)
    {
        if (Fields.Of(node, "the guard", problems) is not { } fields)
            return null;
        GuardKind? kind = fields.Choice<GuardKind>("kind");
        string? source = WordFields.TextOf(fields.Required("source", SourceDue), SourceDue, problems);
        bool isFixed = kind == GuardKind.Fixed;
        GuardDefinition guard = new()
        {
            Kind = kind ?? GuardKind.Enterable,
            Source = source ?? "",
            OpeningTime = isFixed ? fields.Time("opening-time", OpeningTime) : fields.OptionalTime("opening-time", OpeningTime),
            // How much is enough is the builder's to say: there is no usual value.
            Margin = (isFixed ? fields.Quantity("margin", Margin) : fields.OptionalQuantity("margin", Margin)) / 100,
            Distance = fields.OptionalQuantity("distance", Distance),
            Gap = fields.OptionalQuantity("gap", Gap),
            Release = Release(fields.Optional("auxiliary-release"), problems),
        };
        if (kind == GuardKind.Enterable)
            fields.Problems.Add(fields.PlaceOf("kind"), "a person can get into the enclosure whole, and nothing here can see that nobody is inside", "use an enclosure that nobody can get into, and write `interlocked` or `fixed`");
        NeedBoth(fields, "distance", "gap");
        NeedBoth(fields, "gap", "distance");
        fields.Close();
        return guard;
    }

    private static AuxiliaryRelease? Release(Node? node, ProblemList problems)
    {
        if (Fields.Of(node, "the auxiliary release", problems) is not { } fields)
            return null;
        bool? tool = fields.Switch("needs-tool");
        bool? coil = fields.Switch("opens-coil");
        fields.Close();
        return new(tool ?? false, coil ?? false);
    }

    // A distance says nothing without the gap through which a hand is ahead of the contact.
    private static void NeedBoth(Fields fields, string given, string missing)
    {
        if (fields.Has(given) && !fields.Has(missing))
            fields.Problems.Add(fields.PlaceOf(given), $"the guard has a `{given}` and no `{missing}`", $"write `{missing}:` as well, or leave `{given}` out");
    }
}
