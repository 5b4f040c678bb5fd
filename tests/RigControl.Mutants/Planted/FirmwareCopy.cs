using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Planted;

/// <summary>A copy of the firmware's sources, made by its own makefile. Its folder goes with it.</summary>
public sealed class FirmwareCopy : IDisposable
{
    /// <summary>Name of what runs on the board.</summary>
    public const string Program = "rigboard.elf";

    private static readonly TimeSpan LongestBuild = TimeSpan.FromMinutes(5);

    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-firmware-").FullName;

    public FirmwareCopy()
    {
        foreach (string part in (string[])["core", "avr", "tests", "tools"])
            Checkout.Copy(Checkout.At(PlantedDefect.Firmware, part), Path.Combine(_folder, part));
        File.Copy(Checkout.At(PlantedDefect.Firmware, "Makefile"), Path.Combine(_folder, "Makefile"));
    }

    /// <summary>Plants the defect in the copy.</summary>
    public void Change(PlantedDefect defect)
    {
        string file = Path.Combine(_folder, Path.GetRelativePath(PlantedDefect.Firmware, defect.File));
        File.WriteAllText(file, defect.Plant(File.ReadAllText(file)));
    }

    /// <summary>What the firmware's own tests say; null where it cannot be compiled.</summary>
    public Verdict? Test(TimeSpan longest) =>
        Make("build/core-tests") ? Verdict.OfFirmwareTests(Child.Run(Path.Combine(_folder, "build", "core-tests"), [], _folder, longest)) : null;

    /// <summary>What runs on the board; null where it cannot be compiled.</summary>
    public byte[]? Build() => Make("build/" + Program) ? File.ReadAllBytes(Path.Combine(_folder, "build", Program)) : null;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private bool Make(string target) => Child.Run("make", ["-s", target], _folder, LongestBuild).Code == 0;
}
