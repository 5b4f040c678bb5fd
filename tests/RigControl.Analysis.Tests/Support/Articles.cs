using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Support;

/// <summary>Declared articles for the tests: the 180 g disc of the school workshop, and what is left when parts are not declared.</summary>
internal static class Articles
{
    public static Article Disc { get; } = new()
    {
        Name = "disc-180",
        Controller = default!,
        StoppingTime = TimeSpan.FromSeconds(1),
        LongestCoastDown = TimeSpan.FromSeconds(60),
        MaximumRise = 1,
        Rotor = new Rotor(Inertia: 2.2e-4, TipRadius: 0.05, Mass: 0.18, MaximumSpeed: 12_000),
        Motor = new Motor(SpeedConstant: 1000, WindingResistance: 0.1, NoLoadCurrent: 1.2, CurrentLimit: 40),
        Pack = new Pack(Cells: 4, Chemistry: "LiPo", Capacity: 1.3, Resistance: 0.03),
    };

    public static Article MotorAlone { get; } = Disc with { Rotor = null };
}
