namespace RigControl.Model.Rig;

/// <summary>Where an interlock's demand counts. The zero value counts everywhere.</summary>
public enum InterlockScope : byte
{
    EveryStep = 0,

    /// <summary>Only in the steps that name it.</summary>
    NamedSteps = 1,
}
