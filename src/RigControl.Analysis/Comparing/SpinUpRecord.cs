using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Comparing;

/// <summary>
/// One recorded spin-up and what it depended on. The supply is the pack's voltage as it was read times the demand; the free speed at
/// that supply gives Kt, the time constant and the declared inertia give the resistance, the coast-down gives the drag.
/// </summary>
/// <param name="Steady">rad/s.</param>
internal sealed record SpinUpRecord(FigureContext Context, SpinUpCause Cause, double Steady)
{
    // Half-way up a ramp the demand is at half of its level, within this share of it; steps and bends are further off.
    private const double Even = 0.1;

    /// <exception cref="NoFigureException">A cause cannot be told from the record.</exception>
    /// <exception cref="FitFailedException">The readings follow no such law.</exception>
    public static SpinUpRecord Of(FigureContext context)
    {
        double inertia = context.NeedInertia();
        double steady = context.SteadySpeed.Value * Blocks.RpmToRadPerSecond;
        CoastDownFit coast = CoastDownOf(context);
        SpinUpFit fit = context.SpinUp;
        Measured timeConstant = SpeedFigures.TimeConstant(context);
        (double level, double ramp) = DemandOf(context);
        Input supply = SupplyOf(context, level);
        double kt = supply.Value / fit.Model.Free;
        double resistance = timeConstant.Value * kt * kt / inertia;
        SpinUpCause cause = new(
            supply,
            new Input("torque constant", kt, kt * fit.Final.Uncertainty / fit.Final.Value, fit.Final.Freedom),
            new Input("resistance", resistance, resistance * timeConstant.Uncertainty / timeConstant.Value, timeConstant.Freedom),
            fit.Model.Limit * inertia / kt,
            (Term("constant drag", coast.Constant, inertia), Term("linear drag", coast.Linear, inertia), Term("quadratic drag", coast.Quadratic, inertia)),
            new Input("inertia", inertia, inertia * (context.Article!.Uncertainty.TryGetValue("inertia", out double share) ? share : 0)))
        {
            Ramp = ramp,
        };
        return new SpinUpRecord(context, cause, steady);
    }

    /// <summary>From the first demand to a speed in rad/s, as it was read, s.</summary>
    /// <exception cref="NoFigureException">The speed was never reached.</exception>
    public Measured TimeTo(double speed)
    {
        double demand = Context.NeedRise(), rpm = speed / Blocks.RpmToRadPerSecond;
        Measured reached = LocalFit.Crossing(Context.Speed.Between(demand, Context.OutputEnd), rpm, demand, rising: true, 0.05)
            ?? throw new NoFigureException($"a run never reached {rpm:0} rpm");
        double step = Context.Segment.RiseStep;
        return Measured.Of(
            reached.Value - demand + step / 2, reached.As("speed around the level"), new Input("moment of the demand", 0, Measured.OfResolution(step), Shape: Shape.Rectangular));
    }

    private static CoastDownFit CoastDownOf(FigureContext context)
    {
        try
        {
            return context.CoastDown;
        }
        catch (Exception e) when (e is NoFigureException or FitFailedException)
        {
            throw new NoFigureException($"its drag is not known, for {e.Message}");
        }
    }

    // A term that the data cannot tell from nothing is none.
    private static Input Term(string name, DragTerm term, double inertia) =>
        term.Value is { } known ? new Input(name, known.Value * inertia, known.Uncertainty * inertia, known.Freedom) : new Input(name, 0, 0);

    // Share of full output that is held, and the time in which the demand rose to it, s.
    private static (double Level, double Ramp) DemandOf(FigureContext context)
    {
        Series demand = context.Need(ChannelNames.OutputThrottle).Between(context.Segment.RiseAt, context.OutputEnd);
        if (demand.Count < 3)
            throw new NoFigureException($"the record has no usable {ChannelNames.OutputThrottle}");
        double level = Summary.Median(demand.Values[(demand.Count / 2)..]);
        double ramp = demand.Times[Array.FindIndex(demand.Values, v => v >= 0.995 * level)] - demand.Times[0];
        double half = demand.Values[Array.FindIndex(demand.Times, t => t >= demand.Times[0] + ramp / 2)];
        bool even = ramp <= 2 * demand.MeanPeriod || Math.Abs(half - level / 2) <= Even * level;
        return even ? (level / 100, ramp) : throw new NoFigureException("the demand did not rise evenly to one level");
    }

    // The voltage falls while the current rises: a mean stands for it, known to how far it moved.
    private static Input SupplyOf(FigureContext context, double level)
    {
        double until = double.IsNaN(context.Segment.HoldAt) ? context.OutputEnd : context.Segment.HoldAt;
        double[] voltage = context.Need(ChannelNames.BatteryVoltage).Between(context.Segment.RiseAt, until).Values;
        if (voltage.Length < 5)
            throw new NoFigureException($"the record has too little {ChannelNames.BatteryVoltage} of the rise");
        double mean = Summary.Mean(voltage);
        double chance = Math.Max(Summary.Deviation(voltage), Measured.OfResolution(context.Need(ChannelNames.BatteryVoltage).Resolution)) / Math.Sqrt(voltage.Length);
        double moved = Summary.Mean(voltage[..(voltage.Length / 4 + 1)]) - Summary.Mean(voltage[^(voltage.Length / 4 + 1)..]);
        return new Input("supply", level * mean, level * Measured.Combine(chance, Measured.OfResolution(moved)));
    }
}
