using RigControl.Mutants.Changing;
using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Planted;

/// <summary>Plants one defect after the other, each in copies, and lets the tests look at it.</summary>
public sealed class Planter : IDisposable
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(8);

    private readonly Dictionary<string, Compiler> _compilers = [];
    private readonly Dictionary<string, TestCopy> _copies = [];

    /// <summary>What the tests say of a defect.</summary>
    /// <exception cref="InvalidOperationException">It cannot be planted: its text is gone, or what it makes cannot be compiled.</exception>
    public Verdict Try(PlantedDefect defect) => defect.IsInFirmware ? TryFirmware(defect) : TryAssembly(defect);

    public void Dispose()
    {
        foreach (TestCopy copy in _copies.Values)
            copy.Dispose();
    }

    private Verdict TryAssembly(PlantedDefect defect)
    {
        if (!_compilers.TryGetValue(defect.Project, out Compiler? compiler))
            _compilers[defect.Project] = compiler = new Compiler(defect.Project);
        byte[] assembly = compiler.Compile(defect.File, defect.Plant(Checkout.Read(defect.File))) ?? throw CannotCompile(defect);
        return Laid(defect.Noticed, compiler.AssemblyFile, assembly).Run(Filter(defect), Longest);
    }

    private Verdict TryFirmware(PlantedDefect defect)
    {
        using FirmwareCopy firmware = new();
        firmware.Change(defect);
        if (defect.Noticed == PlantedDefect.FirmwareTests)
            return firmware.Test(Longest) ?? throw CannotCompile(defect);
        return Laid(defect.Noticed, FirmwareCopy.Program, firmware.Build() ?? throw CannotCompile(defect)).Run(Filter(defect), Longest);
    }

    private TestCopy Laid(string project, string name, byte[] bytes)
    {
        // A new copy where another file of the same project's copy is a changed one.
        string key = project + "/" + name;
        if (!_copies.TryGetValue(key, out TestCopy? copy))
            _copies[key] = copy = new TestCopy(project);
        copy.Lay(name, bytes);
        return copy;
    }

    // The exploration takes a minute and has its own planted defects; of the board's tests those look at what it does.
    private static string[] Filter(PlantedDefect defect) => defect.Noticed switch
    {
        "RigControl.Kernel.Tests" => ["--filter-not-namespace", "RigControl.Kernel.Tests.Exploration"],
        "RigControl.Board.Tests" => ["--filter-namespace", "RigControl.Board.Tests.Reactions"],
        _ => [],
    };

    private static InvalidOperationException CannotCompile(PlantedDefect defect) =>
        new($"{defect.File} cannot be compiled with {defect.After}");
}
