namespace RigControl.Kernel;

/// <summary>Two-valued parts of the kernel's state. None of them set is the safe value.</summary>
[Flags]
public enum StateFlags : uint
{
    None = 0,

    /// <summary>The operator gave the start of this run, and nothing has ended it since.</summary>
    Started = 1,

    /// <summary>The speed is below standstill; <see cref="KernelState.SlowSince"/> says since when.</summary>
    Slow = 2,

    /// <summary>The rotor is proven to stand still.</summary>
    AtStandstill = 4,

    /// <summary>The operator asked for the lid to be released.</summary>
    UnlockWanted = 8,

    /// <summary>Every repeat is done, or the rest was given up because the lid was unlocked.</summary>
    Finished = 16,

    /// <summary>Power was on when the rig tripped and may stay on for the article's stopping time.</summary>
    StoppingUnderPower = 32,

    /// <summary>Something was energised, and standstill without power has not been proven since.</summary>
    MayTurn = 64,

    /// <summary>The repeats ended early because the lid was unlocked.</summary>
    RepeatsGivenUp = 128,

    /// <summary>The lid was not proven shut at some time since the start.</summary>
    LidReleased = 256,

    /// <summary>Before a provocation: its evidence was seen not to be there already.</summary>
    Unprovoked = 512,

    /// <summary>The provocation of the step is on; <see cref="KernelState.PhaseSince"/> says since when.</summary>
    Provoking = 1024,

    /// <summary>One of the kernel's own causes was given in this very scan, whether it was latched before or not; gone when the scan is over.</summary>
    CauseNow = 2048,

    /// <summary>The speed can be read and is not below standstill.</summary>
    Turning = 4096,

    /// <summary>The last scan drove under power, by its own output or by the receiver's.</summary>
    Driven = 8192,

    /// <summary>It was driven and never seen to turn, its reading fell to standstill from a speed from which no rotor falls at once, or nobody knows how it was left.</summary>
    OutOfSight = 16384,

    /// <summary>The operator looked, after the longest credible coast-down, and it stood; nothing was energised since.</summary>
    Looked = 32768,

    /// <summary>Something was energised since the start of the host.</summary>
    EverEnergised = 65536,
}
