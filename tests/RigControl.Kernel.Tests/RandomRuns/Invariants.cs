namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>
/// What must hold in every run, checked on what went in and what came out. Shares no code with the kernel. Each check
/// returns the number of the first moment that breaks it, or null.
/// </summary>
internal static class Invariants
{
    /// <summary>All of them, by the name that a failure prints.</summary>
    public static IReadOnlyDictionary<string, Func<RandomRig, IReadOnlyList<Moment>, int?>> All { get; } =
        new Dictionary<string, Func<RandomRig, IReadOnlyList<Moment>, int?>>
        {
            ["never driven with a counting interlock that stops"] = (rig, run) => First(run, i => Drives(rig, run[i]) && Stops(rig, run[i], DemandAction.StopOutput)),
            ["never powered with a counting interlock that cuts"] = (rig, run) => First(run, i => run[i].Outputs.Power && Stops(rig, run[i], DemandAction.CutPower)),
            ["driven only in spin-up and hold"] = (rig, run) => First(run, i => Drives(rig, run[i]) && !Turns(run[i].State)),
            ["no output without reset, arm and start in this order"] = Acts.InOrder,
            ["every stretch of output follows three seconds of warning"] = Warned,
            ["every rise from a level follows three seconds of warning"] = WarnedFromLevel,
            ["the output rises no faster than the article allows"] = SlewIsKept,
            ["the gate opens only on a stick at stop and stays open only while the receiver gives pulses"] = (rig, run) => First(run, i => run[i].Outputs.Gate
                && (run[i].Receiver is not { } pulse || pulse.Lowest <= 0 || rig.Does.Steps[run[i].Step].Kind != StepKind.Gate || run[i].Outputs.Throttle is not 0
                    || (!(i > 0 && run[i - 1].Outputs.Gate) && (pulse.Lowest < rig.Article.Controller.StopPulse - 25 || pulse.Highest > rig.Article.Controller.StopPulse + 25)))),
            ["every output is a number within the controller's range"] = (rig, run) => First(run, i => !WithinRange(rig, run[i].Outputs)),
            ["safe-stop is left only by a reset at standstill with every cause cleared"] = Acts.LeftByReset,
            ["unlocked implies idle, power off and standstill"] = (rig, run) => First(run, i => run[i].Outputs.Unlocked
                && (run[i].State != RigState.Idle || run[i].Outputs.Power || Drives(rig, run[i]) || !Standing.At(rig, run, i))),
            ["a repeat needs a lid that stayed shut, at standstill"] = Acts.RepeatsStayedShut,
            ["power in safe-stop lasts no longer than the stopping time"] = PowerEnds,
            ["power off at rest"] = (_, run) => First(run, i => run[i].State == RigState.Idle && run[i].Outputs.Power),
            ["a stop ends in safe-stop with everything off"] = (rig, run) => First(run, i => run[i].Commands.Any(c => c.Kind == CommandKind.Stop)
                && (run[i].State != RigState.SafeStop || run[i].Outputs.Power || Drives(rig, run[i]) || !run[i].Accepted(CommandKind.Stop))),
            ["exactly one receipt per command, in order"] = (_, run) => First(run, i => run[i].Commands.Length != run[i].Receipts.Length
                || !run[i].Commands.Select(c => (c.Id, c.Kind, c.Source)).SequenceEqual(run[i].Receipts.Select(r => (r.Command, r.Kind, r.Source)))),
            ["only the bench raises energy"] = (_, run) => First(run, i =>
                run[i].Receipts.Any(r => r is { Kind: not CommandKind.Stop, Source: not CommandSource.Bench, Refusal: RefusalReason.None })),
            ["each scan begins where the last one ended and takes a permitted way"] = (_, run) => First(run, i =>
                (i > 0 && run[i].Before != run[i - 1].State) || !MayLeadTo(run[i].Before, run[i].State)),
        };

    public static bool Drives(RandomRig rig, Moment moment) =>
        moment.Outputs.Gate
        || moment.Outputs.Throttle is not 0 || moment.Outputs.Pulse != rig.Article.Controller.StopPulse
        || moment.Outputs.SecondThrottle is not 0 || moment.Outputs.SecondPulse != (rig.Article.SecondController?.StopPulse ?? 0);

    public static bool Turns(RigState state) => state is RigState.SpinUp or RigState.Hold;

    public static int? First(IReadOnlyList<Moment> run, Func<int, bool> breaks)
    {
        for (int i = 0; i < run.Count; i++)
        {
            if (breaks(i))
                return i;
        }

        return null;
    }

    private static bool Stops(RandomRig rig, Moment moment, DemandAction least) =>
        moment.Asked.Where((action, i) => action <= least && rig.Counts(i, moment.Step)).Any();

    private static bool WithinRange(RandomRig rig, OutputImage outputs) =>
        WithinRange(rig.Article.Controller, outputs.Throttle, outputs.Pulse)
        && (rig.Article.SecondController is { } second
            ? WithinRange(second, outputs.SecondThrottle, outputs.SecondPulse)
            : (outputs.SecondThrottle, outputs.SecondPulse) == (0, 0));

    private static bool WithinRange(ControllerProfile controller, double throttle, double pulse) =>
        throttle is >= -1 and <= 1 && pulse is >= 1000 and <= 2000 && (controller.Mode == ControllerMode.TwoWay || throttle >= 0);

    private static int? SlewIsKept(RandomRig rig, IReadOnlyList<Moment> run)
    {
        double most = rig.Article.MaximumRise * rig.Rig.ScanPeriod.TotalSeconds + 1e-9;
        return First(run, i => i > 0
            && (Rise(run[i - 1].Outputs.Throttle, run[i].Outputs.Throttle) > most || Rise(run[i - 1].Outputs.SecondThrottle, run[i].Outputs.SecondThrottle) > most));
    }

    // How much further in its direction than the moment before.
    private static double Rise(double before, double now) => Math.Abs(now) - Math.Max(0, before * Math.Sign(now));

    private static int? Warned(RandomRig rig, IReadOnlyList<Moment> run) => First(run, i =>
    {
        if (!Turns(run[i].State) || (i > 0 && Turns(run[i - 1].State)))
            return false;
        int first = i;
        while (first > 0 && run[first - 1].Outputs.Warning && !Drives(rig, run[first - 1]))
            first--;
        return run[i].Seen - run[first].Seen < 3 - 1e-9;
    });

    // The first scan of a step that goes further than the scan before it, other than out of arming.
    private static int? WarnedFromLevel(RandomRig rig, IReadOnlyList<Moment> run) => First(run, i =>
    {
        if (i == 0 || run[i].Step == run[i - 1].Step || !Turns(run[i].State) || !Turns(run[i - 1].State))
            return false;
        Step step = rig.Does.Steps[run[i].Step];
        bool rises = run[i].State == RigState.SpinUp
            && (Further(step.Throttle, run[i - 1].Outputs.Throttle) || Further(step.SecondThrottle, run[i - 1].Outputs.SecondThrottle));
        int first = i;
        while (first > 0 && run[first - 1].Outputs.Warning)
            first--;
        return rises && run[i].Seen - run[first].Seen < 3 - 1e-9;
    });

    private static bool Further(double level, double than) => level > 0 ? level > than : level < than;

    private static int? PowerEnds(RandomRig rig, IReadOnlyList<Moment> run)
    {
        double since = 0;
        return First(run, i =>
        {
            if (run[i].Before != RigState.SafeStop)
                since = run[i].Seen;
            return run[i].State == RigState.SafeStop && run[i].Outputs.Power && run[i].Seen - since > rig.Article.StoppingTime.TotalSeconds;
        });
    }

    private static bool MayLeadTo(RigState before, RigState after) => before == after || (before, after) switch
    {
        (_, RigState.SafeStop) => true,
        (RigState.SafeStop, RigState.Idle) => true,
        (RigState.Idle, RigState.Arming) => true,
        (RigState.Arming, RigState.SpinUp) => true,
        (RigState.SpinUp, RigState.Hold or RigState.CoastDown) => true,
        (RigState.Hold, RigState.SpinUp or RigState.CoastDown) => true,
        (RigState.CoastDown, RigState.Idle) => true,
        _ => false,
    };
}
