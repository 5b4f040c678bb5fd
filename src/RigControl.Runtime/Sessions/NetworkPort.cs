using System.Collections.Concurrent;
using RigControl.Model.Records;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>Takes what comes from the network: a stop at once into the inbox, words into the record with the next scan.</summary>
internal sealed class NetworkPort(CommandInbox inbox) : INetworkPort
{
    /// <summary>Most words that wait for the next scan; more are lost, for whoever floods the rig has said enough.</summary>
    public const int Limit = 64;

    private readonly ConcurrentQueue<Word> _words = new();
    private int _waiting;

    public long Stop(string client) => inbox.Post(CommandKind.Stop, CommandSource.Network, issuer: client);

    public void Tell(string name, string subject, string text, string client)
    {
        if (Interlocked.Increment(ref _waiting) > Limit)
            Interlocked.Decrement(ref _waiting);
        else
            _words.Enqueue(new Word(name, subject, text, client));
    }

    /// <summary>Called by the scan between two scans.</summary>
    public void HandOver(ScanCycle cycle)
    {
        if (Volatile.Read(ref _waiting) == 0)
            return;
        while (_words.TryDequeue(out Word? word))
        {
            Interlocked.Decrement(ref _waiting);
            Dictionary<string, object> data = new() { ["client"] = word.Client };
            cycle.Note(new RigEvent(cycle.Now, cycle.ScanNumber, word.Name, word.Subject, word.Text, data));
        }
    }

    private sealed record Word(string Name, string Subject, string Text, string Client);
}
