using RigControl.Model.Rig;

namespace RigControl.Model.Procedures;

/// <summary>A procedure file, read and checked. Channels and interlocks are still names: the rig gives them places.</summary>
public sealed record Procedure
{
    public required string Name { get; init; }

    /// <summary>How often the steps are run, 1 to 1000.</summary>
    public required int Repeat { get; init; }

    /// <summary>Interlocks without which the rig may not run this procedure.</summary>
    public required IReadOnlyList<string> Requires { get; init; }

    /// <summary>1 to 128 steps.</summary>
    public required IReadOnlyList<Step> Steps { get; init; }

    /// <summary>Set when this is a verification of the failsafe; no file can ask for it.</summary>
    public VerificationCeiling? Verification { get; init; }

    /// <summary>Whether anything is ever energised: without an arm step the rig cannot be armed.</summary>
    public bool Energises => Steps.Any(s => s.Kind == StepKind.Arm);

    /// <summary>Names of the figures wanted at the end.</summary>
    public required IReadOnlyList<string> Figures { get; init; }
}
