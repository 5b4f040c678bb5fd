namespace RigControl.Analysis.Fitting;

/// <summary>
/// Bounded, weighted nonlinear least squares: Levenberg and Marquardt's method with the damping of the model scaled by the
/// columns of its derivatives (J. Moré, Lecture Notes in Mathematics 630 (1978) 105, from memory), then undamped steps until
/// rounding stops them. A bound holds a parameter for as long as the slope pushes it outwards.
/// </summary>
public static class LeastSquares
{
    private const double SmallestGain = 1e-4;
    private const double ClosestReduction = 1e-12;
    private const int MaximumPolish = 100;

    /// <summary>Fits.</summary>
    /// <exception cref="FitFailedException">
    /// Too few data, no number from the model, no convergence, or parameters that the data cannot tell apart; the message says which.
    /// </exception>
    public static Fit Solve(FitProblem problem)
    {
        FitState state = new(problem);
        int iterations = 0;
        double damping = 1e-3;
        double growth = 2;
        while (true)
        {
            if (++iterations > problem.MaximumIterations)
                throw new FitFailedException($"the fit did not settle within {problem.MaximumIterations} iterations");
            state.Linearise();
            if (!Descend(state, ref damping, ref growth))
                break;
        }

        Polish(state);
        return state.Result(iterations);
    }

    // One accepted step; false when no step can make the sum of squares noticeably smaller.
    private static bool Descend(FitState state, ref double damping, ref double growth)
    {
        while (damping < 1e100)
        {
            double[] step = state.Step(damping);
            double foreseen = state.Foreseen(step);
            if (foreseen <= ClosestReduction * state.Squares && damping <= 1 || state.Squares <= state.Negligible)
                return false;
            if (foreseen <= 1e-17 * state.Squares)
                return false;
            double gain = state.Try(step) is { } squares && double.IsFinite(squares) ? (state.Squares - squares) / foreseen : -1;
            if (gain > SmallestGain)
            {
                state.Accept();
                double bend = 2 * gain - 1;
                damping = Math.Max(1e-20, damping * Math.Max(1.0 / 3, 1 - bend * bend * bend));
                growth = 2;
                return true;
            }

            damping *= growth;
            growth *= 2;
        }

        return false;
    }

    // Near the solution the sum of squares is flat and rounding hides it; the size of the undamped step is not hidden.
    private static void Polish(FitState state)
    {
        double last = double.MaxValue;
        for (int i = 0; i < MaximumPolish && last > 0; i++)
        {
            double[]? step = state.FullStep();
            double size = step is null ? double.MaxValue : state.Size(step);
            if (size >= 0.98 * last || state.Try(step!) is not { } squares || !(squares <= state.Squares * (1 + 1e-8) + state.Negligible))
                return;
            state.Accept();
            state.Linearise();
            last = size;
        }
    }
}
