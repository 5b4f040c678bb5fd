namespace RigControl.Model.Rig;

/// <summary>What lets a latched cause go. The zero value is the strictest.</summary>
public enum ResetPolicy : byte
{
    /// <summary>Only a restart of the host, after somebody has looked.</summary>
    Restart = 0,

    /// <summary>An operator's reset at standstill once the cause has cleared.</summary>
    Operator = 1,
}
