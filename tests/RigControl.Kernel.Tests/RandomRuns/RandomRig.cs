namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>A rig, an article and a procedure drawn from a seed, with what the invariants need to know of them.</summary>
internal sealed class RandomRig
{
    private readonly RigBuilder _builder = new();

    public RandomRig(Random random)
    {
        TimeSpan period = TimeSpan.FromMilliseconds(random.Next(2) == 0 ? 20 : 50);
        _builder.Rig = _builder.Rig with { ScanPeriod = period, StandstillTime = TimeSpan.FromMilliseconds(100 + random.Next(400)) };
        _builder.Article = _builder.Article with
        {
            StoppingTime = TimeSpan.FromMilliseconds(random.Next(3) * 300), LongestCoastDown = Steps.Seconds(3), MaximumRise = 0.5 + random.NextDouble() * 4,
        };
        if (random.Next(2) == 0)
            _builder.Article = _builder.Article with { Rotor = new Rotor(1e-4, 0.05, 0.2, 6000) };
        _builder.Drives(Controller(random));
        if (random.Next(3) == 0)
            _builder.DrivesSecond(Controller(random));
        _builder.Reads(ChannelNames.ReceiverPulse);
        if (random.Next(6) == 0)
            _builder.Without(ChannelNames.RotorSpeed);
        if (random.Next(3) == 0)
            _builder.Without(random.Next(2) == 0 ? ChannelNames.EnclosureLid : ChannelNames.EnclosureLock);
        Interlocks = [.. Enumerable.Range(0, 1 + random.Next(6)).Select(_ => new ScriptedInterlock())];
        Scopes = [.. Interlocks.Select((_, i) => i == 0 || random.Next(3) > 0 ? InterlockScope.EveryStep : InterlockScope.NamedSteps)];
        Resets = [.. Interlocks.Select(_ => random.Next(8) == 0 ? ResetPolicy.Restart : ResetPolicy.Operator)];
        for (int i = 0; i < Interlocks.Length; i++)
            _builder.With(Name(i), Interlocks[i], Scopes[i], Resets[i]);
        _builder.Procedure = _builder.Procedure with { Repeat = 1 + random.Next(3), Requires = Some(random), Steps = Procedure(random) };
    }

    public ScriptedInterlock[] Interlocks { get; }

    public InterlockScope[] Scopes { get; }

    public ResetPolicy[] Resets { get; }

    public RigDefinition Rig => _builder.Rig;

    public Article Article => _builder.Article;

    public Procedure Does => _builder.Procedure;

    public bool Has(string channel) => _builder.ChannelList.Contains(channel);

    public KernelBench Bench() => new(_builder);

    /// <summary>Whether an interlock's demand counts in a step, read from the procedure and not from what was compiled of it.</summary>
    public bool Counts(int interlock, int step)
    {
        Step current = Does.Steps[step];
        bool turns = current.Kind is StepKind.SpinUp or StepKind.Hold or StepKind.CoastDown or StepKind.Gate;
        return Scopes[interlock] == InterlockScope.EveryStep
            || current.Interlocks.Contains(Name(interlock))
            || (turns && Does.Requires.Contains(Name(interlock)));
    }

    private static string Name(int interlock) => $"interlock-{interlock}";

    private static ControllerProfile Controller(Random random) => random.Next(4) switch
    {
        0 => RigBuilder.OneWay with { Direction = PulseDirection.Shorter, StopPulse = 2000 },
        1 => RigBuilder.TwoWay,
        2 => RigBuilder.TwoWay with { StopPulse = 1400 },
        _ => RigBuilder.OneWay,
    };

    private string[] Some(Random random) => [.. Interlocks.Select((_, i) => Name(i)).Where(_ => random.Next(4) == 0)];

    private Step[] Procedure(Random random)
    {
        List<Step> steps = random.Next(3) == 0 ? [Steps.Rest(0.3) with { Kind = random.Next(2) == 0 ? StepKind.Rest : StepKind.Observe }] : [];
        for (int block = random.Next(4) == 0 ? 2 : 1; block > 0; block--)
        {
            steps.Add(Steps.Arm(5));
            bool gate = random.Next(4) == 0;
            if (gate)
                steps.Add(Steps.Gate(0.2 + random.NextDouble()));
            for (int level = gate ? 0 : 1 + random.Next(2); level > 0; level--)
                steps.AddRange([Rise(random), Steps.Hold(0.2 + random.NextDouble())]);
            steps.Add(Has(ChannelNames.RotorSpeed) ? Steps.CoastDown(6) : Steps.CoastDown() with { Until = [], For = Steps.Seconds(1) });
        }

        return [.. steps.Select(s => s with { Interlocks = Some(random), Permissives = random.Next(3) == 0 ? Some(random) : [] })];
    }

    private Step Rise(Random random)
    {
        ControllerProfile? second = _builder.Article.SecondController;
        return Steps.SpinUp(Level(random, _builder.Article.Controller), random.Next(3) * 0.4) with
        {
            SecondThrottle = second is null || random.Next(2) == 0 ? 0 : Level(random, second),
        };
    }

    private static double Level(Random random, ControllerProfile controller) =>
        controller.Mode == ControllerMode.TwoWay && random.Next(2) == 0 ? -random.NextDouble() : random.NextDouble();
}
