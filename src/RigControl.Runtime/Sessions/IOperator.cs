using RigControl.Model.Records;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>Whoever acts at the bench: a person at a terminal, or a script on a simulated rig.</summary>
public interface IOperator
{
    /// <summary>Name for the record.</summary>
    string Name { get; }

    /// <summary>Whether the operator has left without starting.</summary>
    bool HasGivenUp { get; }

    /// <summary>Whether somebody can act at the bench now; asked before every scan, so that it must answer at once.</summary>
    bool IsPresent => !HasGivenUp;

    /// <summary>Called by the scan after every scan; must return at once.</summary>
    void See(in ScanRecord record, CommandInbox inbox);
}
