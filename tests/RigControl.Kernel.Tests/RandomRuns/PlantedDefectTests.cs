namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>Every rule is shown to find a run that breaks it: a sound run is taken and one defect planted in it.</summary>
public class PlantedDefectTests
{
    private delegate void Plant(List<Moment> run);

    private static readonly RandomRun Sound = Enumerable.Range(1, 2000).Select(seed => new RandomRun(seed, 1000)).First(Suits);

    private static readonly IReadOnlyDictionary<string, Plant> Defects = new Dictionary<string, Plant>
    {
        ["never driven with a counting interlock that stops"] = run => At(run, Driven, m => m with { Asked = [DemandAction.StopOutput, .. m.Asked[1..]] }),
        ["never powered with a counting interlock that cuts"] = run => At(run, m => m.State == RigState.Arming, m => m with { Asked = [DemandAction.CutPower, .. m.Asked[1..]] }),
        ["driven only in spin-up and hold"] = run => At(run, m => m.State == RigState.CoastDown, m => Put(m, throttle: 0.1, pulse: 1100)),
        ["no output without reset, arm and start in this order"] = run => At(run, m => m.Accepted(CommandKind.Arm), m => m with { Receipts = [] }),
        ["every stretch of output follows three seconds of warning"] = run => At(run, m => m.Outputs.Warning, m => Put(m, switches: OutputSwitches.Power), further: 1),
        ["every rise from a level follows three seconds of warning"] = run => At(run, RisesNext(run), m => Put(m, switches: OutputSwitches.Power)),
        ["the output rises no faster than the article allows"] = run => At(run, m => m.State == RigState.SpinUp, m => Put(m, throttle: 1)),
        ["the gate opens only on a stick at stop and stays open only while the receiver gives pulses"] =
            run => At(run, Driven, m => Put(m, switches: OutputSwitches.Power | OutputSwitches.Gate)),
        ["every output is a number within the controller's range"] = run => At(run, Driven, m => Put(m, throttle: double.NaN)),
        ["safe-stop is left only by a reset at standstill with every cause cleared"] = run => At(run, m => m.Accepted(CommandKind.Reset), m => m with { Speed = (0, 500) }),
        ["unlocked implies idle, power off and standstill"] = run => At(run, m => m.Outputs.Unlocked, m => m with { Speed = null }),
        ["a repeat needs a lid that stayed shut, at standstill"] = run => At(run, m => m.State == RigState.CoastDown, m => m with { Shut = false }),
        ["power in safe-stop lasts no longer than the stopping time"] = run => At(run, m => m == LongStopped(run), m => Put(m, switches: OutputSwitches.Power)),
        ["power off at rest"] = run => At(run, m => m.State == RigState.Idle, m => Put(m, switches: OutputSwitches.Power)),
        ["a stop ends in safe-stop with everything off"] = run => At(run, Driven, m => m with { Commands = [new Command(1, CommandKind.Stop, CommandSource.Network)] }),
        ["exactly one receipt per command, in order"] = run => At(run, m => m.Receipts.Length > 0, m => m with { Receipts = [] }),
        ["only the bench raises energy"] = run => At(run, m => m.Accepted(CommandKind.Start), m => m with { Receipts = [m.Receipts[0] with { Source = CommandSource.Network }] }),
        ["each scan begins where the last one ended and takes a permitted way"] = run => At(run, m => m.State == RigState.Hold, m => m with { Before = RigState.Idle }),
    };

    public static TheoryData<string> Rules() => [.. Invariants.All.Keys];

    [Fact]
    public void The_run_taken_breaks_no_rule() => Assert.All(Invariants.All.Values, check => Assert.Null(check(Sound.Rig, Sound.Moments)));

    [Theory]
    [MemberData(nameof(Rules))]
    public void A_planted_defect_is_found_by_its_rule(string rule)
    {
        List<Moment> run = [.. Sound.Moments];
        Defects[rule](run);
        Assert.NotNull(Invariants.All[rule](Sound.Rig, run));
    }

    // A one-way rig with a speed reading, on which the first start led to a rise and to a repeat, and later the lid was released.
    private static bool Suits(RandomRun run) =>
        run.Rig.Article.Controller == RigBuilder.OneWay
        && run.Rig.Has(ChannelNames.RotorSpeed)
        && run.Moments.Any(m => m.Outputs.Unlocked)
        && LongStopped(run.Moments) is not null
        && run.Moments.TakeWhile(m => !Driven(m)).Count(m => m.Accepted(CommandKind.Reset) || m.Accepted(CommandKind.Stop)) == 1
        && run.Moments.TakeWhile(m => !Driven(m)).SkipWhile(m => m.State == RigState.SafeStop).All(m => m.State != RigState.SafeStop)
        && run.Moments.Any(m => RisesNext([.. run.Moments])(m))
        && Repeats(run.Moments);

    // The last scan of a level before the warning has led to a further rise.
    private static Predicate<Moment> RisesNext(List<Moment> run) => m =>
    {
        int next = run.IndexOf(m) + 1;
        return m is { State: RigState.Hold, Outputs.Warning: true } && next < run.Count && run[next].State == RigState.SpinUp;
    };

    // In safe-stop for longer than any stopping time.
    private static Moment? LongStopped(IReadOnlyList<Moment> run) =>
        run.Where((m, i) => i > 60 && run.Skip(i - 60).Take(61).All(s => s.State == RigState.SafeStop)).FirstOrDefault();

    // The first coast-down leads to a repeat, so that a lid planted open in it must be found.
    private static bool Repeats(IReadOnlyList<Moment> run)
    {
        int coasted = run.ToList().FindIndex(m => m.State == RigState.CoastDown);
        Moment? next = coasted < 0 ? null : run.Skip(coasted).FirstOrDefault(m => m.State is RigState.Arming or RigState.SafeStop);
        return next is { State: RigState.Arming, Before: RigState.Idle } && !next.Accepted(CommandKind.Arm);
    }

    private static bool Driven(Moment moment) => moment.Outputs.Throttle > 0;

    private static void At(List<Moment> run, Predicate<Moment> where, Func<Moment, Moment> change, int further = 0)
    {
        int place = run.FindIndex(where) + further;
        Assert.True(place >= further);
        run[place] = change(run[place]);
    }

    private static Moment Put(Moment moment, double? throttle = null, double? pulse = null, OutputSwitches? switches = null) => moment with
    {
        Outputs = new OutputImage
        {
            Throttle = throttle ?? moment.Outputs.Throttle, Pulse = pulse ?? moment.Outputs.Pulse, Switches = switches ?? moment.Outputs.Switches,
        },
    };
}
