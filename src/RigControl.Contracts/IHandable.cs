using RigControl.Model.Procedures;

namespace RigControl.Contracts;

/// <summary>A simulated bench on which a script does what a person would do by hand. A real device never is one.</summary>
public interface IHandable
{
    /// <summary>Does a move. May be called from another thread than the rest; it takes effect with the next reading.</summary>
    void Do(HandMove move);
}
