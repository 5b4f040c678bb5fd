namespace RigControl.Model.Rig;

/// <summary>What the controller does when pulses cease.</summary>
public enum CeasedPulseBehaviour : byte
{
    /// <summary>Nobody has looked: counts as running on.</summary>
    Unknown = 0,

    /// <summary>It stops driving.</summary>
    Stops = 1,

    /// <summary>It goes on with the last demand. Such a controller needs the power cut.</summary>
    RunsOn = 2,
}
