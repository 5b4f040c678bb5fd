using RigControl.Model.Records;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>Looks on and gives no command: a session with an onlooker never leaves safe-stop. It ends when he leaves.</summary>
/// <param name="stay">How long he looks on; null until <see cref="Leave"/>.</param>
public sealed class Onlooker(TimeSpan? stay) : IOperator
{
    private volatile bool _gone;

    public string Name => "onlooker";

    public bool HasGivenUp => _gone;

    public void Leave() => _gone = true;

    public void See(in ScanRecord record, CommandInbox inbox)
    {
        if (record.Now >= stay)
            _gone = true;
    }
}
