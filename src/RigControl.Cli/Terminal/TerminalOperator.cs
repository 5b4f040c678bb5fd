using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Scanning;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Terminal;

/// <summary>A person at the keyboard. Keys are read by a thread of their own; the scan never waits for them.</summary>
/// <param name="procedure">What is run, for its questions.</param>
internal sealed class TerminalOperator(Procedure procedure) : IOperator
{
    private readonly AnswerKeys _keyboard = new();
    private volatile bool _givenUp;
    private volatile bool _ended;
    private volatile bool _gone;
    private volatile string _hand = "";

    public string Name => Environment.UserName;

    public bool HasGivenUp => _givenUp;

    public bool IsPresent => !_givenUp && !_gone;

    /// <summary>What is asked and may be typed, or is to be done by hand; empty while nothing is.</summary>
    public string Prompt => _keyboard.Prompt is { Length: > 0 } asked ? asked : _hand;

    public void See(in ScanRecord record, CommandInbox inbox)
    {
        _hand = record.State is RigState.Idle or RigState.SpinUp or RigState.Hold ? procedure.Steps[record.Step].Hand?.Text ?? "" : "";
        _keyboard.Question = record is { State: RigState.Idle, Finished: false } ? procedure.Steps[record.Step].Question : null;
    }

    /// <summary>Begins to read keys.</summary>
    public void Listen(RunSession session)
    {
        Thread thread = new(() => ReadKeys(session)) { Name = "keys", IsBackground = true };
        thread.Start();
    }

    public void End() => _ended = true;

    private void ReadKeys(RunSession session)
    {
        try
        {
            while (!_ended)
            {
                if (Console.KeyAvailable)
                    Act(Console.ReadKey(intercept: true), session);
                else
                    Thread.Sleep(10);
            }
        }
        catch (Exception e) when (e is InvalidOperationException or IOException)
        {
            // The terminal is gone: nobody can press stop any more.
            _gone = true;
            session.Stop();
        }
    }

    private void Act(ConsoleKeyInfo key, RunSession session)
    {
        if (_keyboard.Take(key.KeyChar, out double? answer, out string? note))
        {
            if (note is not null)
                session.AddNote(note);
            if (answer is { } given)
                session.Inbox.Post(CommandKind.Answer, CommandSource.Bench, given);
            return;
        }

        switch (char.ToLowerInvariant(key.KeyChar))
        {
            case 'r':
                session.Inbox.Post(CommandKind.Reset, CommandSource.Bench);
                break;
            case 'a':
                session.Inbox.Post(CommandKind.Arm, CommandSource.Bench);
                break;
            case 's':
                session.Inbox.Post(CommandKind.Start, CommandSource.Bench);
                break;
            case 'u':
                session.Inbox.Post(CommandKind.Unlock, CommandSource.Bench);
                break;
            case 'l':
                session.Inbox.Post(CommandKind.Lock, CommandSource.Bench);
                break;
            case 'o':
                session.Inbox.Post(CommandKind.Look, CommandSource.Bench);
                break;
            case 'm':
                session.Inbox.Post(CommandKind.Mark, CommandSource.Bench);
                break;
            case 'q':
                Quit(session);
                break;
            case ' ' or '\r' or '\n' or '\u001b':
                session.Inbox.Post(CommandKind.Stop, CommandSource.Bench);
                break;
        }
    }

    // Quitting a rig that was armed is a stop; before that it is only leaving.
    private void Quit(RunSession session)
    {
        if (session.Watch.WasArmed)
            session.Stop();
        else
            _givenUp = true;
    }
}
