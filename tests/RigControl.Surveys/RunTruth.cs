using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>What every figure of a simulated run ought to be, from the bench's own truth and parameters.</summary>
internal sealed class RunTruth(SimulatedRun run, Segment segment)
{
    /// <summary>A speed that every plan reaches, and a match as it is usual (common practice, no source).</summary>
    public static readonly AskedAt Asked = new() { After = 2, ToSpeed = 2000, Match = 180, Duty = 0.5 };

    private readonly Plan _plan = run.Plan;
    private readonly BenchParameters _bench = run.Plan.Bench;
    private readonly IReadOnlyList<TruthAt> _truth = run.Truth;

    private double Kt => _bench.Motor.TorqueConstant;

    /// <summary>Figure by name, in its unit; the names are those that the catalogue must give from such a run.</summary>
    public Dictionary<string, double> All()
    {
        double steady = Mean(0.5 * (segment.HoldAt + segment.ReleaseAt), segment.ReleaseAt, t => t.Speed) / Plan.RpmToRadPerSecond;
        double peak = Most(t => t.Speed, _plan.Rise, double.MaxValue);
        double after = SpeedAt(_plan.Stop + Asked.After!.Value);
        double rise = Crossing(0.9 * steady * Plan.RpmToRadPerSecond, _plan.Rise, rising: true) - _plan.Rise;
        double drag = _bench.Rotor.Drag.Constant + Kt * _bench.Motor.NoLoadCurrent;
        (double charge, double energy) = Used();
        double mean = (At(_plan.Stop).ChargeUsed - At(_plan.Rise).ChargeUsed) / _plan.On;
        return new Dictionary<string, double>
        {
            ["steady-speed"] = steady, ["peak-speed"] = peak / Plan.RpmToRadPerSecond, ["spin-up-time"] = rise,
            ["tip-speed"] = peak * _bench.Rotor.TipRadius, ["stored-energy"] = _bench.Rotor.Energy(peak),
            ["coast-down-time"] = Crossing(60 * Plan.RpmToRadPerSecond, _plan.Stop, rising: false) - _plan.Stop,
            ["speed-after"] = after / Plan.RpmToRadPerSecond, ["energy-after"] = _bench.Rotor.Energy(after),
            ["drag-constant"] = drag, ["drag-linear"] = _bench.Rotor.Drag.Linear, ["drag-quadratic"] = _bench.Rotor.Drag.Quadratic,
            ["time-constant"] = _bench.Rotor.Inertia * (RisingLoop() + _plan.Level * _plan.Level * _bench.Pack.Resistance) / (Kt * Kt),
            ["peak-current"] = Most(t => t.PackCurrent, _plan.Rise, double.MaxValue), ["peak-power"] = Most(t => t.PackCurrent * t.PackVoltage, _plan.Rise, double.MaxValue),
            ["minimum-voltage"] = -Most(t => -t.PackVoltage, _plan.Rise, double.MaxValue),
            ["mean-current"] = mean, ["match-share"] = 100 * mean * Asked.Match!.Value * Asked.Duty!.Value / _bench.Pack.Capacity,
            ["time-to-speed"] = Crossing(Asked.ToSpeed!.Value * Plan.RpmToRadPerSecond, _plan.Rise, rising: true) - _plan.Rise, ["settling-time"] = Settled(steady * Plan.RpmToRadPerSecond) - _plan.Rise,
            ["voltage-sag"] = _bench.Pack.OpenCircuitVoltage(At(_plan.Rise).StateOfCharge) + Most(t => -t.PackVoltage, _plan.Rise, double.MaxValue), ["torque-constant"] = Kt,
            ["charge-used"] = charge / 3600, ["energy-used"] = energy / 3600, ["battery-share"] = 100 * charge / _bench.Pack.Capacity,
            ["pack-resistance"] = _bench.Pack.Resistance, ["motor-kv"] = _bench.Motor.SpeedConstant, ["winding-resistance"] = HeldLoop(),
            ["peak-torque"] = Most(t => Kt * t.MotorCurrent, _plan.Rise, segment.HoldAt), ["peak-mechanical-power"] = Most(Shaft, _plan.Rise, segment.HoldAt),
            ["best-efficiency"] = Efficiency(), ["temperature-rise"] = Rise(),
            ["peak-voltage"] = Most(t => t.PackVoltage, double.MinValue, double.MaxValue),
        };
    }

    /// <summary>Winding current of the second half of the hold, A.</summary>
    public static double Held(SimulatedRun run, Segment segment) =>
        new RunTruth(run, segment).Mean(0.5 * (segment.HoldAt + segment.ReleaseAt), segment.ReleaseAt, t => t.MotorCurrent);

    // The same at the held level, each moment counted by its heat: the winding warms, and what flows tells its resistance.
    private double HeldLoop()
    {
        BenchTruth[] held = [.. _truth.Where(t => t.Time >= _plan.Rise + _plan.Ramp && t.Time <= _plan.Stop).Select(t => t.Truth)];
        return held.Sum(t => t.MotorCurrent * t.MotorCurrent * _bench.Motor.ResistanceAt(t.WindingTemperature)) / held.Sum(t => t.MotorCurrent * t.MotorCurrent) + _bench.Controller.Resistance;
    }

    // Winding and controller, ohm, each moment of the rise counted by its current.
    private double RisingLoop()
    {
        BenchTruth[] rising = [.. _truth.Where(t => t.Time >= _plan.Rise && t.Time <= segment.HoldAt).Select(t => t.Truth)];
        return rising.Sum(t => t.MotorCurrent * _bench.Motor.ResistanceAt(t.WindingTemperature)) / rising.Sum(t => t.MotorCurrent) + _bench.Controller.Resistance;
    }

    // Current and power are told in the middle of a step, the speed at its end.
    private double Shaft(BenchTruth t) => Kt * t.MotorCurrent * (t.Speed - 0.5 * SimulatedRun.Step * t.Acceleration);

    private double Efficiency()
    {
        double strongest = Most(t => t.PackCurrent * t.PackVoltage, _plan.Rise, segment.HoldAt);
        return Most(t => t.PackCurrent * t.PackVoltage > 0.2 * strongest ? 100 * Shaft(t) / (t.PackCurrent * t.PackVoltage) : 0, _plan.Rise, segment.HoldAt);
    }

    private double Rise()
    {
        double first = run.Channels[ChannelNames.MotorTemperature].Times.First(t => t >= segment.RiseAt);
        return Most(t => t.CaseTemperature, first, double.MaxValue) - At(first).CaseTemperature;
    }

    // Between the first and the last sample: before and after nobody knows.
    private (double Charge, double Energy) Used()
    {
        double[] times = run.Channels[ChannelNames.BatteryCurrent].Times;
        double energy = 0;
        foreach (TruthAt t in _truth.Where(t => t.Time > times[0] && t.Time <= times[^1] + 1e-9))
            energy += t.Truth.PackCurrent * t.Truth.PackVoltage * SimulatedRun.Step;
        return (At(times[^1]).ChargeUsed - At(times[0]).ChargeUsed, energy);
    }

    // When it was last further from the steady speed than counts as settled.
    private double Settled(double steady) => _truth.Last(t => t.Time <= _plan.Stop && Math.Abs(t.Truth.Speed - steady) > AskedAt.UsuallySettled * steady).Time;

    private BenchTruth At(double time) => _truth[Math.Clamp((int)Math.Round(time / SimulatedRun.Step) - 1, 0, _truth.Count - 1)].Truth;

    private double SpeedAt(double time)
    {
        int i = _truth.TakeWhile(t => t.Time < time).Count();
        (TruthAt before, TruthAt now) = (_truth[i - 1], _truth[i]);
        return before.Truth.Speed + (now.Truth.Speed - before.Truth.Speed) * (time - before.Time) / (now.Time - before.Time);
    }

    private double Mean(double from, double to, Func<BenchTruth, double> value) => _truth.Where(t => t.Time >= from && t.Time <= to).Average(t => value(t.Truth));

    private double Most(Func<BenchTruth, double> value, double from, double to) => _truth.Where(t => t.Time >= from && t.Time <= to).Max(t => value(t.Truth));

    private double Crossing(double level, double from, bool rising)
    {
        for (int i = 1; i < _truth.Count; i++)
        {
            (TruthAt before, TruthAt now) = (_truth[i - 1], _truth[i]);
            if (now.Time > from && (rising ? now.Truth.Speed >= level : now.Truth.Speed <= level))
                return before.Time + (now.Time - before.Time) * (level - before.Truth.Speed) / (now.Truth.Speed - before.Truth.Speed);
        }

        return double.NaN;
    }
}
