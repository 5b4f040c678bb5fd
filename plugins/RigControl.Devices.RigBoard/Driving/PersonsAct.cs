using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Driving;

/// <summary>
/// Whether a person must have acted before power is demanded the next time, read from nothing but the outputs. Power rises
/// for two reasons: an operator's reset and arm, or the next repeat of a procedure, which needs no act. Certain signs of the
/// first are: nothing was energised before; the power fell while the output was driven or the warning sounded, or before the
/// warning began, all of which end in safe-stop; the lid was released, which ends the repeats.
/// Anything else could be the pause between two repeats.
/// </summary>
internal sealed class PersonsAct
{
    private bool _powered;
    private bool _warned;
    private bool _wasWorking;

    /// <summary>Whether the next rise of power proves a person's act.</summary>
    public bool Certain { get; private set; } = true;

    /// <summary>Takes the outputs of a scan.</summary>
    /// <param name="outputs">The outputs.</param>
    /// <param name="drives">Whether their pulse is other than stop.</param>
    /// <returns>Whether power is demanded after it was not.</returns>
    public bool Follow(in OutputImage outputs, bool drives)
    {
        bool rises = outputs.Power && !_powered;
        bool falls = !outputs.Power && _powered;
        if (falls)
            Certain = _wasWorking || !_warned;
        if (outputs.Unlocked)
            Certain = true;
        _warned = !rises && _warned;
        _warned |= outputs.Power && outputs.Warning;
        _wasWorking = outputs.Power && (drives || outputs.Warning);
        _powered = outputs.Power;
        return rises;
    }
}
