namespace RigControl.Model.Rig;

/// <summary>What an interlock asks for, strongest first; of several the strongest wins. The zero value is the strongest.</summary>
public enum DemandAction : ushort
{
    /// <summary>Stop output and remove power at once (stop category 0 of IEC 60204-1).</summary>
    CutPower = 0,

    /// <summary>Stop output at once; power follows when the article's stopping time has passed (stop category 1).</summary>
    StopOutput = 1,

    /// <summary>Nothing may start or rise, but what runs may go on.</summary>
    Refuse = 2,

    /// <summary>No objection.</summary>
    Proceed = 3,
}
