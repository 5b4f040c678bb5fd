using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Physics;
using RigControl.Rehearsal.Bench;
using RigControl.Rehearsal.Results;

namespace RigControl.Rehearsal.Running;

/// <summary>One sample: the procedure from reset to rest on one bench, with an operator who acts as soon as each act is possible.</summary>
internal sealed class VirtualRun
{
    // Three times a second is what a person follows; figures of speed and current need more.
    private const int TraceEvery = 2;
    private const int HeatEvery = 40;

    /// <summary>Longest time of a rehearsed run. Whoever plans more rehearses a part of it.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromHours(2);

    private readonly RehearsalPlan _plan;
    private readonly VirtualBench _bench;
    private readonly BandTable _bands;
    private readonly TraceBuilder _trace;
    private readonly Command[] _command = new Command[1];
    private readonly double[] _margins;
    private readonly string?[] _tightest;
    private KernelState _state;
    private FoldState _fold;
    private InputImage _image;
    private ScanRecord _record;
    private RigState _entered = RigState.SafeStop;
    private long _commands;
    private (int Repeat, int Step) _answered = (-1, -1);
    private bool _looked;
    private VirtualTrip? _trip;
    private TimeSpan _ended;
    private double _fastest, _energy, _rushed;

    public VirtualRun(RehearsalPlan plan, BenchParameters parameters, ulong seed, BandTable bands)
    {
        (_plan, _bands) = (plan, bands);
        _bench = new VirtualBench(plan, parameters, seed) { Outputs = new OutputImage { Pulse = plan.Configuration.StopPulse, SecondPulse = plan.Configuration.SecondStopPulse } };
        _trace = new TraceBuilder(RehearsalPlan.Channels(plan.Rig));
        _margins = [.. Enumerable.Repeat(double.PositiveInfinity, plan.Configuration.InterlockCount)];
        _tightest = new string?[plan.Configuration.InterlockCount];
    }

    /// <param name="figures">Names of the figures wanted.</param>
    public VirtualResult Run(IReadOnlyList<string> figures)
    {
        TimeSpan period = _plan.Configuration.ScanPeriod;
        for (TimeSpan now = period; now < Longest && !IsOver(); now += period)
            Scan(now);
        bool completed = _record is { Finished: true, State: not RigState.SafeStop };
        FigureInput input = new(_trace.Build(), _plan.Article, FigureContext.RestSpeedOf(_plan.Procedure))
        {
            TemperatureLimits = TemperatureCeilings.Of(_plan.Rig), Asked = _plan.Asked,
        };
        return new VirtualResult(
            completed, _trip, _margins, _tightest, FigureCatalog.Compute(figures, input), _fastest, _energy, _rushed, _record.Now);
    }

    // A real run is recorded until the rotor stands, and so is this one.
    private bool IsOver() => (_record.Finished || _trip is not null) && (_record.AtStandstill || _record.Now - _ended > _plan.Configuration.LongestCoastDown);

    private void Scan(TimeSpan now)
    {
        _bench.Pass(now, _plan.Configuration.ChannelList, ref _fold);
        Fold.Close(_plan.Configuration.ChannelList, ref _fold, now, ref _image);
        (int step, TimeSpan inStep, RigState before) = (_state.Step, now - _state.StepSince, _state.State);
        ReadOnlySpan<Command> commands = Next() is { } next ? Given(next) : [];
        ScanKernel.Scan(_plan.Configuration, ref _state, new ScanInput(now, _image, commands), ref _record);
        _bench.Outputs = _record.Outputs;
        if (_trip is null && before is RigState.SpinUp or RigState.Hold or RigState.CoastDown)
            NoteBands(step, inStep);
        Follow(now);
    }

    private ReadOnlySpan<Command> Given((CommandKind Kind, double Value) next)
    {
        _command[0] = new Command(++_commands, next.Kind, CommandSource.Bench, next.Value);
        return _command;
    }

    private (CommandKind Kind, double Value)? Next()
    {
        if (_trip is not null || _record.Scan == 0)
            return null;
        Step step = _plan.Procedure.Steps[_record.Step];
        return _record switch
        {
            { AwaitsLook: true } => Look(),
            { State: RigState.SafeStop, AtStandstill: true } => (CommandKind.Reset, 0),
            { State: RigState.Idle, Finished: false } when step.Question is { } question && _answered != (_record.Repeat, _record.Step) => Answer(question),
            { State: RigState.Idle, Finished: false, AtStandstill: true } when step.Kind == StepKind.Arm && (_record.Repeat <= 1 || _looked) => (CommandKind.Arm, 0),
            { Phase: ArmingPhase.AwaitingStart } => (CommandKind.Start, 0),
            _ => null,
        };
    }

    // Behind a look no repeat goes on by itself.
    private (CommandKind Kind, double Value) Look()
    {
        _looked = true;
        return (CommandKind.Look, 0);
    }

    private (CommandKind Kind, double Value) Answer(Question question)
    {
        _answered = (_record.Repeat, _record.Step);
        return (CommandKind.Answer, question.IsChoice ? 0 : (question.Lowest + question.Highest) / 2);
    }

    private void Follow(TimeSpan now)
    {
        if (_record.State != _entered)
            _trace.Enter(now.TotalSeconds, (_entered = _record.State).ToString());
        NoteTrip(now);
        if (!_record.Finished && _trip is null)
            _ended = now;
        if (_record.State is not (RigState.SafeStop or RigState.Idle))
            NoteMargins();
        Sample(now);
        ref readonly BenchTruth truth = ref _bench.Truth;
        _fastest = Math.Max(_fastest, Math.Abs(truth.Speed));
        _energy = Math.Max(_energy, truth.StoredEnergy);
        _rushed = Math.Max(_rushed, truth.HighestPackCurrent);
    }

    // What stands before the first reset is start-up's and no trip of the run.
    private void NoteTrip(TimeSpan now)
    {
        if (_trip is not null || (_record.NewlyLatched == 0 && _record.NewCauses == TripCause.None) || _record.Before == RigState.SafeStop)
            return;
        int interlock = System.Numerics.BitOperations.TrailingZeroCount(_record.NewlyLatched);
        bool byInterlock = _record.NewlyLatched != 0;
        BoundInterlock? bound = byInterlock ? _plan.Configuration.InterlockAt(interlock) : null;
        string name = bound?.Id ?? TripCauseNames.Of(_record.NewCauses);
        string reason = bound?.Interlock.Explain(_record.Demands[interlock]) ?? $"the step did not go as planned ({name})";
        _trip = new VirtualTrip(name, reason, _record.Step, now);
    }

    private void NoteMargins()
    {
        for (int i = 0; i < _margins.Length; i++)
        {
            ref readonly Demand demand = ref _record.Demands[i];
            if (!(demand.Margin < _margins[i]))
                continue;
            _margins[i] = demand.Margin;
            _tightest[i] = demand.Margin < 0.2 ? _plan.Configuration.InterlockAt(i).Interlock.Explain(demand) : null;
        }
    }

    // As an interlock sees it: the step and the time in it before this scan moves on.
    private void NoteBands(int step, TimeSpan inStep)
    {
        for (int i = 0; i < Rehearser.Banded.Length; i++)
        {
            ref readonly ImageEntry entry = ref _image[Rehearser.Banded[i]];
            _bands.Add(i, step, inStep, entry.Minimum);
            _bands.Add(i, step, inStep, entry.Maximum);
        }
    }

    private void Sample(TimeSpan now)
    {
        ref readonly BenchTruth truth = ref _bench.Truth;
        if (_record.Scan % TraceEvery == 0)
        {
            Keep(BenchChannels.Speed, now, _bench.Speed);
            Keep(BenchChannels.Voltage, now, truth.PackVoltage);
            Keep(BenchChannels.Current, now, truth.PackCurrent);
            Keep(BenchChannels.Throttle, now, _record.Outputs.Throttle * 100);
        }

        if (_record.Scan % HeatEvery != 0)
            return;
        Keep(BenchChannels.MotorHeat, now, truth.CaseTemperature);
        Keep(BenchChannels.ControllerHeat, now, truth.ControllerTemperature);
        Keep(BenchChannels.BatteryHeat, now, truth.PackTemperature);
        Keep(BenchChannels.AmbientHeat, now, truth.AmbientTemperature);
    }

    private void Keep(int channel, TimeSpan now, double value) => _trace.Add(new Sample((ushort)channel, Quality.Good, now, value));
}
