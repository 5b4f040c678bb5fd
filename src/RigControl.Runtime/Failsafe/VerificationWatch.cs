using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Runtime.Failsafe;

/// <summary>
/// Measures a verification as it happens: when each provocation began, when its first sign came, whether each sign showed something, and
/// whether it was seen to its end. It stops nothing; a step that the kernel did not see to its end cannot pass here.
/// </summary>
public sealed class VerificationWatch : IRunSink
{
    private readonly Configuration _configuration;
    private readonly TimeSpan _powerAllowed;
    private readonly Stopwatches[] _steps;
    private readonly SignWatch?[] _signs;
    private int _step = -1;
    private bool _begun;

    /// <param name="configuration">Of the verification.</param>
    /// <param name="rig">As its file says.</param>
    public VerificationWatch(Configuration configuration, RigDefinition rig)
    {
        (_configuration, _powerAllowed) = (configuration, VerificationParts.PowerAllowed(rig));
        _steps = new Stopwatches[configuration.StepCount];
        _signs = [.. Enumerable.Range(0, configuration.StepCount).Select(i => configuration.StepAt(i).Provocation is { } provocation ? new SignWatch(provocation, configuration) : null)];
    }

    /// <summary>What every step that provokes or observes came to; those that were never reached have failed.</summary>
    public IReadOnlyList<ProvocationResult> Results => [.. Enumerable.Range(0, _configuration.StepCount).Where(IsWanted).Select(Result)];

    /// <summary>Whether all of them passed.</summary>
    public bool AllPassed => Results.All(r => r.Passed);

    public void See(in ScanRecord record, in InputImage image)
    {
        bool live = record.State != RigState.SafeStop || record.Before != RigState.SafeStop;
        if (live && record.Step != _step)
            Enter(record.Step);
        if (!_begun)
            return;
        if (_configuration.StepAt(record.Step).Provocation is { } provocation)
            Follow(provocation, record, image);
        if (record.State is RigState.SpinUp or RigState.Hold && _steps[record.Step].ProvokedAt is null)
            SignsAhead(record.Step)?.Before(image, record.Now);
    }

    private void Follow(CompiledProvocation provocation, in ScanRecord record, in InputImage image)
    {
        ref Stopwatches step = ref _steps[record.Step];
        step.ProvokedAt ??= ProvokedAt(provocation, record);
        if (step.ProvokedAt is not null)
            _signs[record.Step]!.Provoked(record.Now);
        if (step.ProvokedAt is { } since && step.SignAt is null && SignWatch.Holds(provocation.Evidence[0], image[provocation.Evidence[0].Channel]))
            step.SignAt = Later(since, SignAt(provocation.Evidence[0], image[provocation.Evidence[0].Channel], record.Now));
        // A contact that bounces has not opened before it stays open.
        if (step.ProvokedAt is { } provoked && !step.IsDone && _configuration.PowerChannel >= 0)
            step.PowerGoneAt = PowerGone(image[_configuration.PowerChannel], step.PowerGoneAt, provoked, record.Now);
        step.IsDone |= (record.NewCauses & TripCause.Provoked) != 0;
        if (record.NewCauses != TripCause.None && (record.NewCauses & ~(TripCause.Provoked | provocation.ExpectedCause)) != 0)
            step.Why ??= Scanning.Words.Of(record.NewCauses & ~(TripCause.Provoked | provocation.ExpectedCause));
    }

    public void Hear(RigEvent happened)
    {
        if (happened.Name == EventNames.Answer && _step >= 0)
            _steps[_step].Answer = (double)happened.Data["value"];
        else if (happened.Name == EventNames.Trip && _step >= 0)
            _steps[_step].Trips = _steps[_step].Trips is { } before ? $"{before}; {happened.Text}" : happened.Text;
    }

    // The signs of a provocation are looked at from the rise that leads to it.
    private SignWatch? SignsAhead(int step)
    {
        while (step < _signs.Length && _signs[step] is null)
            step++;
        return step < _signs.Length ? _signs[step] : null;
    }

    private void Enter(int step)
    {
        // A look or a question that was left for the next step has been answered; one that failed ends the verification.
        if (_begun && step == _step + 1)
            _steps[_step].IsLeft = true;
        (_step, _begun) = (step, true);
    }

    private bool IsWanted(int place) => _configuration.StepAt(place) is { Kind: StepKind.Provoke or StepKind.Observe or StepKind.Ask };

    private ProvocationResult Result(int place)
    {
        CompiledStep step = _configuration.StepAt(place);
        Stopwatches seen = _steps[place];
        if (step.Provocation is { } provocation)
            return Provoked(place, provocation, seen);
        bool answered = step.Kind != StepKind.Ask || seen.Answer == 0;
        string said = step.Question is { } question && seen.Answer is { } choice ? question.Choices[(int)choice] : seen.IsLeft ? "seen" : seen.Trips ?? NotReached(place);
        string expected = step.Question is { } asked ? asked.Choices[0] : VerificationWords.Of(step.Until[0], _configuration);
        return new ProvocationResult(step.Written, StageOf(place), expected, said, null, null, seen.IsLeft && answered, step.Kind == StepKind.Ask || step.Hand?.OnWord == true);
    }

    private ProvocationResult Provoked(int place, CompiledProvocation provocation, in Stopwatches seen)
    {
        bool measured = provocation.Manner != ProvocationManner.Rest;
        double? reaction = measured && seen is { SignAt: { } at, ProvokedAt: { } since } ? (at - since).TotalSeconds : null;
        double? allowed = measured ? AllowedFor(provocation).TotalSeconds : null;
        double? gone = PowerGoneAfter(place, seen);
        string? objection = !seen.IsDone ? seen.Why ?? seen.Trips ?? NotReached(place)
            : measured && !(reaction <= allowed) ? "seen, but too late"
            : _signs[place]!.Objection ?? (gone > _powerAllowed.TotalSeconds ? VerificationWords.PowerLate(gone.Value, _powerAllowed) : null);
        return new ProvocationResult(
            provocation.Name, StageOf(place), VerificationWords.Expected(provocation, _configuration), objection ?? VerificationWords.Seen(provocation, _configuration),
            reaction, allowed, objection is null, OnWord: false)
        {
            PowerGone = gone, PowerAllowed = gone is null ? null : _powerAllowed.TotalSeconds, Reserve = objection is null ? _signs[place]!.Reserve : null,
        };
    }

    // Only where the power was on and had to go: pulses that cease leave it.
    private double? PowerGoneAfter(int place, in Stopwatches seen) =>
        seen is { ProvokedAt: { } began, PowerGoneAt: { } gone } && !_configuration.StepAt(place).Unpowered && _signs[place]!.ShowsEndOf(_configuration.PowerChannel)
            ? (gone - began).TotalSeconds
            : null;

    // Nothing is live in the first, the power is off in the second; whatever comes once it has been on belongs to the third.
    private int StageOf(int place)
    {
        CompiledStep[] provoked = [.. Enumerable.Range(0, place + 1).Select(_configuration.StepAt).Where(s => s.Provocation is not null)];
        return provoked.Length == 0 ? 1 : provoked.All(s => s.Unpowered) ? 2 : 3;
    }

    // What stopped the arming or the rise before a provocation is why it failed.
    private string NotReached(int place)
    {
        for (int before = place - 1; before >= 0 && !IsWanted(before); before--)
        {
            if (_steps[before].Trips is { } why)
                return $"not reached: {why}";
        }

        return "not reached";
    }

    // Output and power go by wire; only a falling speed takes the article's own time.
    private TimeSpan AllowedFor(CompiledProvocation provocation) => _configuration.ChannelList[provocation.Evidence[0].Channel].Name switch
    {
        ChannelNames.RotorSpeed => provocation.Allowed,
        ChannelNames.OutputPower => _powerAllowed,
        _ => VerificationParts.SignalAllowed,
    };

    private static TimeSpan? ProvokedAt(CompiledProvocation provocation, in ScanRecord record) => provocation.Manner switch
    {
        ProvocationManner.Awaited => record.Demands[provocation.Expected].Action <= DemandAction.StopOutput ? record.Demands[provocation.Expected].ShownAt : null,
        ProvocationManner.ThroughGate => (record.NewCauses & provocation.ExpectedCause) != 0 ? record.Now : null,
        ProvocationManner.Silence => record.Outputs.Silent ? record.Now : null,
        ProvocationManner.CeasedPulses => record.Outputs.Pulse == 0 ? record.Now : null,
        ProvocationManner.PowerCut => record.State == RigState.Hold && !record.Outputs.Power ? record.Now : null,
        _ => null,
    };

    // Since when it is off; null while it is on or cannot be read.
    private static TimeSpan? PowerGone(in ImageEntry power, TimeSpan? already, TimeSpan provoked, TimeSpan now) =>
        power.IsUsable && power.Maximum < 0.5 ? already ?? Later(provoked, power.Count == 0 ? now - power.Age : power.MaximumAt) : null;

    private static TimeSpan SignAt(CompiledCondition sign, in ImageEntry entry, TimeSpan now) =>
        entry.Count == 0 ? now - entry.Age : sign.Kind == ConditionKind.Below ? entry.MinimumAt : entry.MaximumAt;

    private static TimeSpan Later(TimeSpan a, TimeSpan b) => a > b ? a : b;

    private struct Stopwatches
    {
        public TimeSpan? ProvokedAt;
        public TimeSpan? SignAt;
        public TimeSpan? PowerGoneAt;
        public bool IsDone;
        public bool IsLeft;
        public double? Answer;
        public string? Why;
        public string? Trips;
    }
}
