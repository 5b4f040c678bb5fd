namespace RigControl.Cli;

/// <summary>What the program's exit says to whoever called it.</summary>
internal static class ExitCode
{
    public const int Done = 0;
    public const int InternalFault = 1;

    /// <summary>A file, an option or a trace is wrong.</summary>
    public const int BadInput = 2;

    /// <summary>Nothing was energised, because something objected.</summary>
    public const int Refused = 3;

    /// <summary>The rig was stopped.</summary>
    public const int SafeStop = 4;

    /// <summary>A device or the storage failed before anything was energised.</summary>
    public const int DeviceOrStorage = 5;

    /// <summary>A replay or comparison found a difference, or a run passes a limit of the rules.</summary>
    public const int Difference = 6;
}
