using RigControl.Analysis.Figures;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Cli.Loading;

/// <summary>
/// What each figure needs of rig, article and procedure: the one list of it. Whoever adds a figure adds its row here, so that
/// <c>check</c> can say beforehand what a run will not give.
/// </summary>
internal static class FigureLacks
{
    private static readonly string[] AnyTemperature =
        [ChannelNames.MotorTemperature, ChannelNames.ControllerTemperature, ChannelNames.BatteryTemperature, ChannelNames.AmbientTemperature];

    private static readonly Need Speed = new(ChannelNames.RotorSpeed);
    private static readonly Need Current = new(ChannelNames.BatteryCurrent);
    private static readonly Need Voltage = new(ChannelNames.BatteryVoltage);
    private static readonly Need Power = new(ChannelNames.BatteryVoltage, ChannelNames.BatteryCurrent);
    private static readonly Need Drag = Speed with { Steps = [StepKind.CoastDown], Inertia = true, FreeCoastDown = true };
    private static readonly Need Motor = new(ChannelNames.RotorSpeed, ChannelNames.BatteryVoltage, ChannelNames.BatteryCurrent) { Steps = [StepKind.SpinUp] };

    private static readonly Dictionary<string, Need> Table = new()
    {
        ["spin-up-time"] = Speed with { Steps = [StepKind.SpinUp, StepKind.Hold] },
        ["steady-speed"] = Speed with { Steps = [StepKind.Hold] },
        ["peak-speed"] = Speed with { Steps = [StepKind.SpinUp] },
        ["tip-speed"] = Speed with { Steps = [StepKind.SpinUp], TipRadius = true },
        ["stored-energy"] = Speed with { Steps = [StepKind.SpinUp], Inertia = true },
        ["coast-down-time"] = Speed with { Steps = [StepKind.CoastDown] },
        ["speed-after"] = Speed with { Steps = [StepKind.CoastDown] },
        ["energy-after"] = Speed with { Steps = [StepKind.CoastDown], Inertia = true },
        ["drag-constant"] = Drag,
        ["drag-linear"] = Drag,
        ["drag-quadratic"] = Drag,
        ["time-constant"] = Speed with { Steps = [StepKind.SpinUp, StepKind.Hold] },
        ["charge-used"] = Current,
        ["energy-used"] = Power,
        ["peak-current"] = Current with { Steps = [StepKind.SpinUp] },
        ["mean-current"] = Current with { Steps = [StepKind.SpinUp] },
        ["minimum-voltage"] = Voltage with { Steps = [StepKind.SpinUp] },
        ["peak-power"] = Power with { Steps = [StepKind.SpinUp] },
        ["pack-resistance"] = Power with { Steps = [StepKind.SpinUp] },
        ["battery-share"] = Current with { Pack = true },
        ["temperature-rise"] = new(AnyTemperature) { AnyChannel = true, Steps = [StepKind.SpinUp] },
        ["thermal-time-constant"] = new(AnyTemperature) { AnyChannel = true, Steps = [StepKind.Hold] },
        ["thermal-resistance"] = Power with { Steps = [StepKind.Hold] },
        ["time-to-limit"] = new(AnyTemperature) { AnyChannel = true, Steps = [StepKind.Hold] },
        ["continuous-current"] = Current with { Steps = [StepKind.Hold] },
        ["motor-kv"] = Motor with { Steps = [StepKind.Hold] },
        ["no-load-current"] = Motor with { Steps = [StepKind.Hold] },
        ["winding-resistance"] = Motor with { Inertia = true },
        ["peak-torque"] = Motor with { Inertia = true },
        ["peak-mechanical-power"] = Motor with { Inertia = true },
        ["best-efficiency"] = Motor with { Inertia = true },
        ["stall-current"] = Current with { Steps = [StepKind.SpinUp] },
        ["vibration"] = new("vibration") { Steps = [StepKind.Hold] },
        ["inertia"] = Motor,
    };

    /// <summary>Names of the figures whose needs are known.</summary>
    public static IEnumerable<string> Names => Table.Keys;

    /// <summary>Everything that a figure lacks, each a clause such as <c>the article gives no inertia</c>; empty where it can be had.</summary>
    /// <param name="procedure">Null where none is looked at; its steps are then not judged.</param>
    /// <param name="article">Null where none is looked at.</param>
    /// <param name="channels">Names of the rig's channels; null where they are not known.</param>
    public static IReadOnlyList<string> Of(string figure, Procedure? procedure, Article? article, IReadOnlyCollection<string>? channels)
    {
        List<string> lacks = [];
        if (!FigureCatalog.Names.Contains(figure))
            lacks.Add("this version does not compute it");
        if (!Table.TryGetValue(figure, out Need? need))
            return lacks;
        if (channels is not null)
            lacks.AddRange(OfChannels(need, channels));
        if (article is not null)
            lacks.AddRange(OfArticle(need, article));
        if (procedure is not null)
            lacks.AddRange(need.Steps.Where(s => procedure.Steps.All(p => p.Kind != s)).Select(s => $"the procedure has no {Word(s)}"));
        return lacks;
    }

    private static IEnumerable<string> OfChannels(Need need, IReadOnlyCollection<string> channels)
    {
        string[] missing = [.. need.Channels.Where(c => !channels.Contains(c))];
        if (need.AnyChannel)
            return missing.Length < need.Channels.Count ? [] : [$"the rig supplies none of {string.Join(", ", need.Channels)}"];
        return missing.Select(c => $"the rig supplies no {c}");
    }

    private static IEnumerable<string> OfArticle(Need need, Article article)
    {
        if (need.Inertia && article.Rotor is null)
            yield return "the article gives no inertia";
        if (need.TipRadius && article.Rotor is null)
            yield return "the article gives no tip radius";
        if (need.Pack && article.Pack is null)
            yield return "the article gives no pack";
        if (need.FreeCoastDown && article.Controller.BrakesAtStop)
            yield return "the controller brakes at stop";
    }

    private static string Word(StepKind kind) => kind switch
    {
        StepKind.SpinUp => "spin-up",
        StepKind.CoastDown => "coast-down",
        StepKind.Hold => "hold",
        _ => kind.ToString().ToLowerInvariant(),
    };

    private sealed record Need(params IReadOnlyList<string> Channels)
    {
        /// <summary>Whether one of the channels is enough.</summary>
        public bool AnyChannel { get; init; }

        public IReadOnlyList<StepKind> Steps { get; init; } = [];

        public bool Inertia { get; init; }

        public bool TipRadius { get; init; }

        public bool Pack { get; init; }

        public bool FreeCoastDown { get; init; }
    }
}
