using System.Globalization;
using System.Numerics;
using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;

namespace RigControl.Runtime.Scanning;

/// <summary>
/// Puts into words what a scan record says has changed: the same words for logbook, terminal and telemetry. It looks at
/// every record and allocates only when something happened.
/// </summary>
/// <param name="issuerOf">Names who gave a command; left out where nobody asks for it.</param>
public sealed class Narrator(AssembledRig rig, Func<long, string>? issuerOf = null)
{
    private readonly Configuration _configuration = rig.Configuration;
    private RigState _state;
    private int _step = -1;
    private int _repeat = -1;
    private TimeSpan _stepAt;
    private bool _begun;
    private bool _finished;

    /// <summary>Appends the events of one scan.</summary>
    public void Tell(in ScanRecord record, List<RigEvent> events)
    {
        if (record.ReceiptCount > 0)
            TellReceipts(record, events);
        if ((record.NewlyLatched | (uint)record.NewCauses) != 0)
            TellTrips(record, events);
        if (!_begun || record.State != _state)
            TellState(record, events);
        if (record.Repeat > 0 && (record.Step != _step || record.Repeat != _repeat))
            TellStep(record, events);
        if (record.Finished && !_finished)
            TellFinished(record, events);
        (_begun, _state, _finished) = (true, record.State, record.Finished);
    }

    /// <summary>What an interlock says about a demand; a sentence of our own when the interlock itself failed.</summary>
    public string Explain(int interlock, in Demand demand)
    {
        BoundInterlock bound = _configuration.InterlockAt(interlock);
        try
        {
            if (demand.Reason == ushort.MaxValue)
                return $"the interlock {bound.Id} itself failed";
            return bound.Interlock.Explain(demand) is { Length: > 0 } said ? said : Unexplained(bound);
        }
#pragma warning disable CA1031 // An interlock that cannot explain itself must not hide that it tripped.
        catch (Exception)
#pragma warning restore CA1031
        {
            return Unexplained(bound);
        }
    }

    /// <summary>Every interlock that has an objection, with its reason.</summary>
    public IReadOnlyList<Objection> Objections(in ScanRecord record)
    {
        List<Objection> objections = [];
        for (int i = 0; i < record.InterlockCount; i++)
        {
            if (record.Demands[i].Action != DemandAction.Proceed)
                objections.Add(new Objection(_configuration.InterlockAt(i).Id, Explain(i, record.Demands[i])));
        }

        return objections;
    }

    private static string Unexplained(BoundInterlock bound) => $"the interlock {bound.Id} objects";

    private void TellReceipts(in ScanRecord record, List<RigEvent> events)
    {
        for (int i = 0; i < record.ReceiptCount; i++)
        {
            Receipt receipt = record.Receipts[i];
            string act = Words.Of(receipt.Kind);
            if (receipt is { Refusal: RefusalReason.None, Kind: CommandKind.Answer })
                events.Add(Answer(record, receipt.Value));
            else if (receipt.Refusal == RefusalReason.None)
                events.Add(Act(record, receipt, EventNames.OperatorAct, act, $"{act} by {Words.Of(receipt.Source)}{Named(receipt)}"));
            else if (receipt.Refusal is RefusalReason.InterlockObjects or RefusalReason.CauseStands)
                events.AddRange(Refusals(record, receipt, act));
            else if (receipt.Refusal == RefusalReason.NoSuchAnswer)
                events.Add(Act(record, receipt, EventNames.Refusal, act, $"answer refused: {Due(_configuration.StepAt(_step).Question!)}"));
            else
                events.Add(Act(record, receipt, EventNames.Refusal, act, $"{act} refused: {Words.Of(receipt.Kind, receipt.Refusal)}"));
        }
    }

    // The step that asked is the one told last: the record already stands in the next.
    private RigEvent Answer(in ScanRecord record, double value)
    {
        Question question = _configuration.StepAt(_step).Question!;
        double seconds = (record.Now - _stepAt).TotalSeconds;
        string said = question.IsChoice ? question.Choices[(int)value] : $"{value.ToString("R", CultureInfo.InvariantCulture)} {question.Unit}";
        Dictionary<string, object> data = new()
        {
            ["step"] = _step + 1, ["repeat"] = _repeat, ["value"] = value, ["unit"] = question.Unit, ["resolution"] = question.Resolution,
            ["after"] = seconds, ["said"] = said,
        };
        return new RigEvent(record.Now, record.Scan, EventNames.Answer, question.Name, string.Create(CultureInfo.InvariantCulture, $"{question.Name}: {said}, after {seconds:0.0} s"), data);
    }

    private static string Due(Question question) => question.IsChoice
        ? $"choose one of {string.Join(", ", question.Choices)}"
        : string.Create(CultureInfo.InvariantCulture, $"it must be a number from {question.Lowest:R} to {question.Highest:R} {question.Unit}");

    // One event for each interlock that objects, so that every reason shows.
    private List<RigEvent> Refusals(ScanRecord record, Receipt receipt, string act)
    {
        IReadOnlyList<Objection> objections = Objections(record);
        return objections.Count == 0
            ? [Act(record, receipt, EventNames.Refusal, act, $"{act} refused: {Words.Of(receipt.Kind, receipt.Refusal)}")]
            : [.. objections.Select(o => Act(record, receipt, EventNames.Refusal, o.Interlock, o.Reason))];
    }

    private string Named(in Receipt receipt) => issuerOf?.Invoke(receipt.Command) is { Length: > 0 } issuer ? $" ({issuer})" : "";

    private RigEvent Act(in ScanRecord record, in Receipt receipt, string name, string subject, string text)
    {
        Dictionary<string, object> data = new()
        {
            ["command"] = receipt.Command, ["act"] = Words.Of(receipt.Kind), ["source"] = Words.Of(receipt.Source),
        };
        if (issuerOf?.Invoke(receipt.Command) is { Length: > 0 } issuer)
            data["client"] = issuer;
        return new RigEvent(record.Now, record.Scan, name, subject, text, data);
    }

    private void TellTrips(in ScanRecord record, List<RigEvent> events)
    {
        for (uint left = record.NewlyLatched; left != 0; left &= left - 1)
        {
            int place = BitOperations.TrailingZeroCount(left);
            Demand demand = record.Demands[place];
            events.Add(Trip(record, _configuration.InterlockAt(place).Id, demand.Channel, Explain(place, demand), demand.ShownAt, Measured(demand, _configuration.InterlockAt(place))));
        }

        foreach (TripCause cause in Enum.GetValues<TripCause>())
        {
            if (cause != TripCause.None && (record.NewCauses & cause) != 0)
                events.Add(Trip(record, Words.Name(cause), -1, cause == TripCause.StopCommand ? Stopped(record) : Words.Of(cause), record.Now));
        }
    }

    private string Stopped(in ScanRecord record)
    {
        for (int i = 0; i < record.ReceiptCount; i++)
        {
            if (record.Receipts[i] is { Kind: CommandKind.Stop, Refusal: RefusalReason.None } stop)
                return $"stopped by {Words.Of(stop.Source)}{Named(stop)}";
        }

        return Words.Of(TripCause.StopCommand);
    }

    // A reading that is no number has told its cause in words.
    private static Dictionary<string, object> Measured(in Demand demand, BoundInterlock interlock)
    {
        Dictionary<string, object> data = new() { ["before-reset"] = Words.BeforeReset(interlock.Reset) };
        if (double.IsFinite(demand.Value) && double.IsFinite(demand.Limit))
            (data["value"], data["limit"]) = (demand.Value, demand.Limit);
        return data;
    }

    private RigEvent Trip(in ScanRecord record, string interlock, int channel, string reason, TimeSpan shownAt, Dictionary<string, object>? measured = null)
    {
        Dictionary<string, object> data = new(measured ?? new() { ["before-reset"] = Words.BeforeReset(ResetPolicy.Operator) })
        {
            ["channel"] = NameOf(channel),
            ["at"] = shownAt.TotalSeconds,
            ["reaction"] = (record.Now - shownAt).TotalSeconds,
            ["done"] = Words.Done(record),
        };
        return new RigEvent(record.Now, record.Scan, EventNames.Trip, interlock, reason, data);
    }

    // An interlock may name a channel that there is not; that must not cost the scan.
    private string NameOf(int channel)
    {
        IReadOnlyList<Channel> channels = rig.Channels;
        return channel >= 0 && channel < channels.Count ? channels[channel].Name : "";
    }

    private static void TellState(in ScanRecord record, List<RigEvent> events)
    {
        Dictionary<string, object> data = new() { ["state"] = record.State.ToString(), ["trigger"] = record.Fired.ToString() };
        events.Add(new RigEvent(record.Now, record.Scan, EventNames.StateEntered, record.State.ToString(), $"{Words.Of(record.State)}", data));
    }

    private void TellStep(in ScanRecord record, List<RigEvent> events)
    {
        (_step, _repeat, _stepAt) = (record.Step, record.Repeat, record.Now);
        CompiledStep step = _configuration.StepAt(record.Step);
        string kind = Words.Of(step.Kind);
        string asked = (step.Question?.Text ?? step.Hand?.Text) is { } words ? $": {words}" : "";
        Dictionary<string, object> data = new() { ["step"] = record.Step + 1, ["repeat"] = record.Repeat, ["kind"] = kind };
        string what = step.Provocation is null ? kind : $"{kind} {step.Provocation.Name}";
        string text = $"step {record.Step + 1} of {_configuration.StepCount}, {what}, repeat {record.Repeat} of {_configuration.Repeats}{asked}";
        events.Add(new RigEvent(record.Now, record.Scan, EventNames.StepEntered, kind, text, data));
    }

    private void TellFinished(in ScanRecord record, List<RigEvent> events)
    {
        // A repeat counts from its first step on, so that the last one may be given up before it has begun.
        bool all = record.Repeat >= _configuration.Repeats && record.Step == _configuration.StepCount - 1;
        string text = all ? "the procedure is done" : $"the repeats end after {record.Repeat - 1} of {_configuration.Repeats}: the lid did not stay locked";
        events.Add(new RigEvent(record.Now, record.Scan, all ? EventNames.Finished : EventNames.RepeatsEnded, "", text, new Dictionary<string, object>()));
    }
}

/// <summary>An interlock that objects, and its reason.</summary>
public sealed record Objection(string Interlock, string Reason);
