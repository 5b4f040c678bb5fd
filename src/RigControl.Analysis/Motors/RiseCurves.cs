using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;

namespace RigControl.Analysis.Motors;

/// <summary>
/// What the fitted rise says at every speed that it went through, each place known as well as the fit's covariance tells it there. All of it is
/// per kg.m2, so that how well the inertia is known can be counted by who uses it.
/// </summary>
internal static class RiseCurves
{
    // Enough to show the corner where a ramp or a limit ends.
    private const int Places = 121;

    // Slower, the rotor has hardly set off; faster, next to nothing is left to be told apart.
    private static readonly (double From, double To) Told = (0.02, 0.995);

    /// <summary>rad/s, in ascending order, evenly.</summary>
    public static double[] Speeds(FigureContext context)
    {
        double fastest = Rise(context, context.SpinUp.Fit.Parameters).Max(r => r.Speed);
        return [.. Enumerable.Range(0, Places).Select(i => fastest * (Told.From + (Told.To - Told.From) * i / (Places - 1)))];
    }

    /// <summary>Torque before drag at each of the speeds, per kg.m2: rad/s2.</summary>
    public static Measured[] Drive(FigureContext context, double[] speeds) => context.SpinUp.EachOfFit(p =>
    {
        (double Time, double Speed, double Drive)[] rise = Rise(context, p);
        return At(rise, [.. rise.Select(r => r.Drive)], speeds);
    });

    /// <summary>Shaft power over the pack's at each of the speeds, per kg.m2; not a number where the pack gives too little for a share of it.</summary>
    public static Measured[] Efficiency(FigureContext context, double[] speeds)
    {
        // Refuses what cannot be: more out than in.
        MotorFigures.BestEfficiency(context);
        Measured[] ratios = context.SpinUp.EachOfFit(p => Along(context, p, speeds, a => a.Ratio));
        double[] scatter = Along(context, context.SpinUp.Fit.Parameters, speeds, a => a.Scatter);
        return [.. ratios.Select((r, i) => Measured.Of(r.Value, r.As("torque from the spin-up fit"), new Uncertainty.Input("power of the pack", 0, Math.Abs(r.Value) * scatter[i])))];
    }

    private static double[] Along(FigureContext context, ReadOnlySpan<double> parameters, double[] speeds, Func<(double Ratio, double Scatter), double> of)
    {
        (double Time, double Speed, double Drive)[] rise = Rise(context, parameters);
        return At(rise, [.. PowerBalance.Of(context.Power, rise).Along(rise).Select(of)], speeds);
    }

    // Up to the hold; later the pack fades at a speed that was passed before.
    private static (double Time, double Speed, double Drive)[] Rise(FigureContext context, ReadOnlySpan<double> parameters)
    {
        double until = double.IsNaN(context.Segment.HoldAt) ? context.OutputEnd : context.Segment.HoldAt;
        (double Time, double Speed, double Drive)[] rise = [.. context.SpinUp.CurveOf(parameters).Where(c => c.Time <= until)];
        return rise.Length > 1 ? rise : throw new NoFigureException("the rise is over too soon");
    }

    // When the rise first came to each speed, by a straight line; where it falls short of one, as it ends.
    private static double[] At((double Time, double Speed, double Drive)[] rise, double[] values, double[] speeds)
    {
        double[] at = new double[speeds.Length];
        int k = 1;
        for (int i = 0; i < speeds.Length; i++)
        {
            while (k < rise.Length - 1 && rise[k].Speed < speeds[i])
                k++;
            double span = rise[k].Speed - rise[k - 1].Speed;
            double share = span > 0 ? Math.Clamp((speeds[i] - rise[k - 1].Speed) / span, 0, 1) : 1;
            at[i] = values[k - 1] + share * (values[k] - values[k - 1]);
        }

        return at;
    }
}
