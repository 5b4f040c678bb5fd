using RigControl.Model.Signals;

namespace RigControl.Model.Rig;

/// <summary>
/// One condition under which the rig may start and go on. Pure: the same input and memory give the same demand, on every
/// processor and at replay; no clock, no file, no allocation; only + - * / and square root on numbers.
/// </summary>
public interface IInterlock
{
    /// <summary>Decides, every scan, in every state. An exception counts as <see cref="DemandAction.CutPower"/>.</summary>
    Demand Evaluate(in InterlockInput input, ref InterlockMemory memory);

    /// <summary>The demand as a sentence that a person at the bench understands, with measured value and limit.</summary>
    string Explain(in Demand demand);
}
