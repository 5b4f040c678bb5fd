using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Terminal;

/// <summary>Whether the rotor is off the motor, before a verification that may only be made without it. No sensor tells.</summary>
internal static class RotorQuestion
{
    /// <returns>The answer as part of the proof, marked as the operator's word.</returns>
    /// <exception cref="CliException">It is not off; exit code 3.</exception>
    public static ProvocationResult Ask(IOperator acting)
    {
        if (acting is TerminalOperator)
        {
            Console.Error.WriteLine("With the pack disconnected, look: is the rotor off the motor, and everything else that it would throw?");
            Console.Error.Write("Type  removed  and ENTER; anything else turns nothing: ");
            if (Console.In.ReadLine()?.Trim() != "removed")
                throw new CliException(ExitCode.Refused, "refused: the rotor is not said to be off; take it off, or leave --rotor-removed out");
        }

        return new ProvocationResult("rotor-removed", 3, "the rotor is off the motor", $"said by {acting.Name}", null, null, true, OnWord: true);
    }
}
