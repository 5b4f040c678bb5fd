using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Physics;
using RigControl.Runtime.Scanning;

namespace RigControl.Campaigns;

/// <summary>
/// Tries to get the procedure done, and while faults may be on does foolish things at random: any command, from anywhere. Once
/// the faults have ended it is patient: it only resets, arms and starts, each when it is due.
/// </summary>
internal sealed class CampaignOperator(Scenario scenario)
{
    private static readonly CommandKind[] Kinds = Enum.GetValues<CommandKind>();
    private static readonly CommandSource[] Sources = [CommandSource.Network, CommandSource.Bench];
    private const double Patience = 0.3;

    private readonly double _calmFrom = scenario.CalmFrom;
    private SplitMix _chance = new(scenario.Seed ^ 0xAC7);
    private double _next;
    private bool _stopGiven;

    /// <summary>Ids of all commands given, each of which is owed one receipt.</summary>
    public List<long> Given { get; } = [];

    /// <summary>Whether a stop was given since this was last asked.</summary>
    public bool TakeStopGiven()
    {
        bool given = _stopGiven;
        _stopGiven = false;
        return given;
    }

    /// <summary>Fills the inbox with anything from the network, and then asks for a stop.</summary>
    public void Flood(CommandInbox inbox)
    {
        for (int i = 0; i <= CommandInbox.Limit; i++)
            Give(inbox, Kinds[(int)(_chance.Uniform() * Kinds.Length)], CommandSource.Network);
        Give(inbox, CommandKind.Stop, CommandSource.Bench);
    }

    public void Act(in ScanRecord record, double now, CommandInbox inbox)
    {
        if (now < _calmFrom && _chance.Uniform() < scenario.Restlessness)
            Give(inbox, Kinds[(int)(_chance.Uniform() * Kinds.Length)], Sources[(int)(_chance.Uniform() * Sources.Length)]);
        if (scenario.IsOn(FaultKind.UnlockSought, now))
            Give(inbox, CommandKind.Unlock, CommandSource.Bench);
        if (now < _next)
            return;
        CommandKind? due = record switch
        {
            { AwaitsLook: true } => CommandKind.Look,
            { State: RigState.SafeStop, AtStandstill: true } => CommandKind.Reset,
            { State: RigState.Idle, Finished: true } => CommandKind.Stop,
            { State: RigState.Idle, Outputs.Unlocked: true } => CommandKind.Lock,
            { State: RigState.Idle, AtStandstill: true, Step: 0 } => CommandKind.Arm,
            { Phase: ArmingPhase.AwaitingStart } => CommandKind.Start,
            _ => null,
        };
        if (due is not { } kind)
            return;
        _next = now + Patience;
        Give(inbox, kind, CommandSource.Bench);
    }

    private void Give(CommandInbox inbox, CommandKind kind, CommandSource source)
    {
        long id = inbox.Post(kind, source);
        _stopGiven |= kind == CommandKind.Stop;
        if (id > 0 && (Given.Count == 0 || Given[^1] != id))
            Given.Add(id);
    }
}
