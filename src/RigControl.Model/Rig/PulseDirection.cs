namespace RigControl.Model.Rig;

/// <summary>How the pulse changes when the throttle rises.</summary>
public enum PulseDirection : byte
{
    Longer = 0,
    Shorter = 1,
}
