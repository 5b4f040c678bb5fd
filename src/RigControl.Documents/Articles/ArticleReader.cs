using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Articles;

/// <summary>Reads the whole of an article file.</summary>
internal static class ArticleReader
{
    private static readonly Bounds StoppingTime = new("s", 0, 10);
    private static readonly Bounds LongestCoastDown = new("s", 0.1, 3600);
    private static readonly Bounds FastestRise = new("s", 0.02, 60);

    public static Article? Read(Fields fields, ProblemList problems)
    {
        string? name = fields.Name("article");
        ControllerProfile? controller = ControllerReader.Read(Fields.Of(fields.Required("controller", "its keys below"), "the controller", problems));
        ControllerProfile? second = ControllerReader.Read(Fields.Of(fields.Optional("second-controller"), "the second controller", problems));
        Rotor? rotor = PartReaders.Rotor(Fields.Of(fields.Optional("rotor"), "the rotor", problems));
        Motor? motor = PartReaders.Motor(Fields.Of(fields.Optional("motor"), "the motor", problems));
        Pack? pack = PartReaders.Pack(Fields.Of(fields.Optional("pack"), "the pack", problems));
        IReadOnlyDictionary<string, double> uncertainty = UncertaintyReader.Read(Fields.Of(fields.Optional("uncertainty"), "the uncertainty", problems));
        VerificationCeiling? verification = PartReaders.Verification(Fields.Of(fields.Optional("verification"), "the verification", problems));
        TimeSpan? stopping = fields.Time("stopping-time", StoppingTime);
        TimeSpan? coastDown = fields.Time("longest-coast-down", LongestCoastDown);
        double? rise = fields.Quantity("fastest-rise", FastestRise);
        fields.Close();
        return name is null || controller is null ? null : new()
        {
            Name = name,
            Controller = controller,
            SecondController = second,
            Rotor = rotor,
            Motor = motor,
            Pack = pack,
            Verification = verification,
            Uncertainty = uncertainty,
            StoppingTime = stopping ?? TimeSpan.Zero,
            LongestCoastDown = coastDown ?? TimeSpan.Zero,
            MaximumRise = 1 / (rise ?? double.PositiveInfinity),
        };
    }
}
