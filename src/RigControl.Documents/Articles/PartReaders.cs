using System.Text.RegularExpressions;
using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Articles;

/// <summary>Reads rotor, motor and pack; each may be left out as a whole, but not in part.</summary>
internal static partial class PartReaders
{
    // A hundred volts, above which this is no work for a bench any more.
    private const int MostCells = 24;

    private static readonly string[] Chemistries = ["LiPo", "LiHV", "LiIon", "LiFePO4", "NiMH", "NiCd", "lead-acid"];

    private static readonly Bounds Mass = new("kg", 0.001, 100);
    private static readonly Bounds TipRadius = new("m", 0.001, 1);
    private static readonly Bounds Inertia = new("kg.m2", 1e-9, 10);
    private static readonly Bounds MaximumSpeed = new("rpm", 1, 100_000);

    private static readonly Bounds VerificationThrottle = new("%", 1, 50);
    private static readonly Bounds VerificationSpeed = new("rpm", 100, 20_000);

    private static readonly Bounds Kv = new("rpm/V", 1, 100_000);
    private static readonly Bounds WindingResistance = new("Ohm", 0.0001, 100);
    private static readonly Bounds NoLoadCurrent = new("A", 0, 100);
    private static readonly Bounds CurrentLimit = new("A", 0.1, 1000);

    private static readonly Bounds Capacity = new("Ah", 0.01, 1000);
    private static readonly Bounds PackResistance = new("Ohm", 0.0001, 10);

    public static Rotor? Rotor(Fields? fields)
    {
        if (fields is null)
            return null;
        double? mass = fields.Quantity("mass", Mass);
        double? radius = fields.Quantity("tip-radius", TipRadius);
        double? inertia = fields.Quantity("inertia", Inertia);
        double? speed = fields.Quantity("maximum-speed", MaximumSpeed);
        fields.Close();
        // All of the mass at the largest radius is the most that any body can have.
        if (inertia > mass * radius * radius)
            fields.Problems.Add(fields.PlaceOf("inertia"), "no body of this mass and radius has so large an inertia",
                "check the unit; a flat disc has half of mass times radius squared");
        return new(inertia ?? 0, radius ?? 0, mass ?? 0, speed ?? 0);
    }

    /// <summary>How far a verification of the failsafe may go: its throttle as a share.</summary>
    public static VerificationCeiling? Verification(Fields? fields)
    {
        if (fields is null)
            return null;
        double? throttle = fields.Quantity("throttle", VerificationThrottle);
        double? speed = fields.Quantity("highest-speed", VerificationSpeed);
        fields.Close();
        return new((throttle ?? 0) / 100, speed ?? 0);
    }

    public static Motor? Motor(Fields? fields)
    {
        if (fields is null)
            return null;
        double? kv = fields.Quantity("kv", Kv);
        double? resistance = fields.Quantity("winding-resistance", WindingResistance);
        double? noLoad = fields.Quantity("no-load-current", NoLoadCurrent);
        double? limit = fields.Quantity("current-limit", CurrentLimit);
        fields.Close();
        if (noLoad >= limit)
            fields.Problems.Add(fields.PlaceOf("no-load-current"), "the motor takes more with no load than the controller lets through",
                "check `no-load-current` and `current-limit`");
        return new(kv ?? 0, resistance ?? 0, noLoad ?? 0, limit ?? 0);
    }

    public static Pack? Pack(Fields? fields)
    {
        if (fields is null)
            return null;
        string? chemistry = WordFields.OneOf(fields.Required("chemistry", Words.Either(Chemistries)), Chemistries, fields.Problems);
        int? cells = Cells(fields.Required("cells", $"a count such as `3S`, from 1S to {MostCells}S"), fields.Problems);
        double? capacity = fields.Quantity("capacity", Capacity);
        double? resistance = fields.Quantity("resistance", PackResistance);
        fields.Close();
        return new(cells ?? 0, chemistry ?? "", capacity ?? 0, resistance ?? 0);
    }

    private static int? Cells(Node? node, ProblemList problems)
    {
        if (WordFields.TextOf(node, "a count such as `3S`", problems) is not { } text)
            return null;
        if (CellCount().Match(text) is { Success: true } match && int.Parse(match.Groups[1].ValueSpan) is >= 1 and <= MostCells and var cells)
            return cells;
        problems.Add(node!.Place, $"{Words.Quote(text)} is not a count of cells in series", $"write `1S` to `{MostCells}S`");
        return null;
    }

    [GeneratedRegex(@"^([0-9]{1,2})S\z", RegexOptions.CultureInvariant)]
    private static partial Regex CellCount();
}
