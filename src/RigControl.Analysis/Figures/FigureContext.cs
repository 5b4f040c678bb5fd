using RigControl.Analysis.Fitting;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Power;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Figures;

/// <summary>What a figure may look at: one repeat of a run. Fits that several figures need are made once.</summary>
public sealed class FigureContext(FigureInput input, Segment segment)
{
    /// <summary>Speed, rpm, by which a coast-down counts as done unless the procedure says otherwise.</summary>
    public const double UsualRestSpeed = 60;

    // The controller needs a moment to obey a stop.
    private const double Letting = 0.05;

    private readonly Dictionary<string, object> _once = [];

    public FigureInput Input => input;

    /// <summary>The repeat in question.</summary>
    public Segment Segment => segment;

    public Trace Trace => Input.Trace;

    /// <summary>As its file declared it; null for a trace that came without one.</summary>
    public Article? Article => Input.Article;

    /// <summary>rpm.</summary>
    public double RestSpeed => Input.RestSpeed;

    /// <summary>What some figures are asked at.</summary>
    public AskedAt Asked => Input.Asked;

    /// <summary>The speed below which the procedure's first coast-down ends.</summary>
    public static double RestSpeedOf(Procedure procedure) => procedure.Steps
        .Where(s => s.Kind == StepKind.CoastDown)
        .SelectMany(s => s.Until)
        .Where(c => c is { Channel: ChannelNames.RotorSpeed, Kind: ConditionKind.Below })
        .Select(c => c.Value)
        .FirstOrDefault(UsualRestSpeed);

    /// <summary>When the output went off, or the record ends, s.</summary>
    public double OutputEnd => double.IsNaN(Segment.ReleaseAt) ? Segment.EndAt : Segment.ReleaseAt;

    /// <summary>
    /// Until when readings may tell of this repeat's coast-down, s: the tachometer sees the last turns late, beyond the end of the step
    /// that they ended, but never into the next rise.
    /// </summary>
    public double CoastEnd => Trace.Segments
        .Select(s => s.RiseAt - s.RiseStep)
        .Where(rise => rise > Segment.RiseAt && rise > OutputEnd)
        .Append(Segment.EndAt + 1)
        .Min();

    /// <summary>The tachometer's readings of the whole run.</summary>
    public SpeedSignal Speed => Input.Speed ?? throw new NoFigureException($"the record has no usable {ChannelNames.RotorSpeed}");

    /// <summary>What was left out of the readings, for the reader of a figure; null for nothing.</summary>
    public string? SpeedNote => Speed.Notes.Count > 0 ? string.Join("; ", Speed.Notes) : null;

    /// <summary>The trajectory of the repeat's coast-down.</summary>
    public CoastDownFit CoastDown => Once("coast-down", FitCoastDown);

    /// <summary>The repeat's spin-up.</summary>
    public SpinUpFit SpinUp => Once("spin-up", FitSpinUp);

    /// <summary>Highest drive of the spin-up, rad/s2, and highest drive times speed, rad2/s3: torque and power per inertia.</summary>
    internal (Measured Drive, Measured Power) Highest => Once("highest of the rise", () => SpinUp.Highest());

    /// <summary>Highest speed of the repeat, rpm.</summary>
    internal Measured PeakSpeed => Once("peak speed", () => SpeedFigures.Peak(this));

    /// <summary>Steady speed of its hold, rpm.</summary>
    internal Measured SteadySpeed => Once("steady speed", () => SpeedFigures.Steady(this));

    /// <summary>Rested voltage and resistance of the pack over the repeat.</summary>
    internal PackFit Pack => Once("pack", () => PackFit.Of(Need(ChannelNames.BatteryVoltage), Need(ChannelNames.BatteryCurrent)));

    /// <summary>Ohm of the whole pack.</summary>
    internal Measured PackResistance => Once("pack resistance", () => PowerFigures.PackResistance(this));

    /// <summary>Moments of the repeat at which a level is held.</summary>
    internal IReadOnlyList<DriveMoment> Moments => Once("moments", () => DriveMoments.Of(this));

    /// <summary>Motor and controller from those moments.</summary>
    internal MotorFit Motor => Once("motor", () => MotorFit.Of(Moments));

    /// <summary>W of the pack over the repeat.</summary>
    internal Series Power => Once("power", () => PackSeries.Power(Need(ChannelNames.BatteryVoltage), Need(ChannelNames.BatteryCurrent)));

    /// <summary>What several figures need of the repeat: worked out at the first question, as is the reason where there is none.</summary>
    /// <exception cref="NoFigureException">The work ends in one, at every question.</exception>
    /// <exception cref="FitFailedException">The same.</exception>
    internal T Once<T>(string what, Func<T> work)
        where T : notnull
    {
        if (!_once.TryGetValue(what, out object? known))
            _once[what] = known = Worked(work);
        return known is Exception reason ? throw reason : (T)known;
    }

    private static object Worked<T>(Func<T> work)
        where T : notnull
    {
        try
        {
            return work();
        }
        catch (Exception e) when (e is NoFigureException or FitFailedException)
        {
            return e;
        }
    }

    /// <summary>A channel's samples from rise to the end of the repeat, or the reason why there are none.</summary>
    public Series Need(string channel) => Once($"{channel} of the repeat", () => Trace.Find(channel)?.Between(Segment.RiseAt, Segment.EndAt) is { Count: > 1 } series
        ? series
        : throw new NoFigureException($"the record has no usable {channel}"));

    /// <summary>kg.m2 of the rotor.</summary>
    public double NeedInertia() => Article?.Rotor?.Inertia ?? throw new NoFigureException("the article declares no inertia");

    /// <summary>kg.m2 of the rotor, with what is known of its uncertainty.</summary>
    internal Input DeclaredInertia() => Input.Declared("inertia", NeedInertia());

    /// <summary>When the output first rose, s.</summary>
    public double NeedRise() => double.IsNaN(Segment.RiseAt) ? throw new NoFigureException("the record begins after the rise") : Segment.RiseAt;

    /// <summary>When the output went to stop, s.</summary>
    public double NeedRelease() => double.IsNaN(Segment.ReleaseAt) ? throw new NoFigureException("the output was never let go") : Segment.ReleaseAt;

    /// <summary>Says so where a speed is higher than Kv and voltage allow; null otherwise.</summary>
    public string? TooFast(double rpm)
    {
        if (Article?.Motor is not { } motor || Trace.Find(ChannelNames.BatteryVoltage) is not { } voltage)
            return null;
        double possible = motor.SpeedConstant * voltage.Values.Max();
        return rpm > 1.02 * possible ? $"faster than the declared Kv allows at {voltage.Values.Max():0.0} V: {possible:0} rpm" : null;
    }

    private CoastDownFit FitCoastDown()
    {
        if (Article?.Controller is { BrakesAtStop: true })
            throw new NoFigureException("the controller brakes at stop");
        double from = NeedRelease() + Letting + Segment.ReleaseStep;
        SpeedSignal running = Speed.Between(from, CoastEnd);
        // The last turns are few and long; below rest nothing is claimed.
        double floor = Math.Max(RestSpeed, 0.01 * running.Values.DefaultIfEmpty(0).Max());
        int end = Array.FindIndex(running.Values, v => v < floor);
        CoastDownFit fit = CoastDownFit.Of(running, from, end > 0 ? running.Times[end - 1] : Segment.EndAt);
        // Times are told from the stop output, not from where the fit begins.
        return fit with { Lead = from - Segment.ReleaseAt };
    }

    private SpinUpFit FitSpinUp()
    {
        double rise = NeedRise();
        // As much of the hold as tells the final speed, and no more: later the pack fades and the winding cools.
        double to = double.IsNaN(Segment.HoldAt) ? OutputEnd : Segment.HoldAt + 0.5 * Math.Min(OutputEnd - Segment.HoldAt, Segment.HoldAt - rise);
        Series? demand = Trace.Find(ChannelNames.OutputThrottle);
        Physics.CoastDown drag = default;
        try
        {
            drag = CoastDown.Trajectory;
        }
        catch (Exception e) when (e is NoFigureException or FitFailedException)
        {
            // Without a coast-down the drag hides in the final speed and the time constant.
        }

        return SpinUpFit.Of(Speed, rise, to, demand, drag);
    }
}

/// <summary>Why a figure cannot be had from the data.</summary>
public sealed class NoFigureException(string reason) : Exception(reason);
