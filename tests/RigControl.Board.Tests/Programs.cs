using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Tests;

/// <summary>The AVR programs that the build laid beside the tests.</summary>
internal static class Programs
{
    /// <summary>A board running the program for trying the simulator itself.</summary>
    public static SimulatedBoard Toy() => new(Find("toy.elf"));

    /// <summary>The rig board's firmware.</summary>
    public static string Firmware => Find("rigboard.elf");

    private static string Find(string name)
    {
        string path = Path.Combine(AppContext.BaseDirectory, name);
        bool present = File.Exists(path) && File.Exists(Path.Combine(AppContext.BaseDirectory, "libboardsim.so"));
        Assert.SkipUnless(present, $"{name} or libboardsim.so was not built: apt install gcc make gcc-avr avr-libc libsimavr-dev, and build again.");
        return path;
    }
}
