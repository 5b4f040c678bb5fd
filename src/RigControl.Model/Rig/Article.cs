namespace RigControl.Model.Rig;

/// <summary>The thing under test, as its builder declares it.</summary>
public sealed record Article
{
    public required string Name { get; init; }

    public required ControllerProfile Controller { get; init; }

    /// <summary>What a second output drives: another controller or a servo. Null where nothing is on it.</summary>
    public ControllerProfile? SecondController { get; init; }

    /// <summary>The rotor; null for a motor-only article, which stores no energy worth an enclosure.</summary>
    public Rotor? Rotor { get; init; }

    public Motor? Motor { get; init; }

    public Pack? Pack { get; init; }

    /// <summary>Time after the stop output at which power is removed in a safe-stop that did not cut it, 0 to 10 s.</summary>
    public required TimeSpan StoppingTime { get; init; }

    /// <summary>Longest credible time from stop output to standstill. Declared by the builder; used where no speed can be read.</summary>
    public required TimeSpan LongestCoastDown { get; init; }

    /// <summary>How far the verification of the failsafe may turn it; null where its builder has not said.</summary>
    public VerificationCeiling? Verification { get; init; }

    /// <summary>How well the article's data are known, where its builder says so: relative standard uncertainties by key, 0 to 1.</summary>
    public IReadOnlyDictionary<string, double> Uncertainty { get; init; } = new Dictionary<string, double>();

    /// <summary>Fastest rise of the throttle, share per second.</summary>
    public required double MaximumRise { get; init; }
}

/// <summary>A rotor's declared data.</summary>
/// <param name="Inertia">About its axis, kg.m2.</param>
/// <param name="TipRadius">Largest radius, m.</param>
/// <param name="Mass">kg.</param>
/// <param name="MaximumSpeed">Highest speed the builder allows, rpm.</param>
public sealed record Rotor(double Inertia, double TipRadius, double Mass, double MaximumSpeed);

/// <summary>A motor's declared data.</summary>
/// <param name="SpeedConstant">Kv, rpm/V.</param>
/// <param name="WindingResistance">Ohm, terminal to terminal.</param>
/// <param name="NoLoadCurrent">A.</param>
/// <param name="CurrentLimit">Phase current limit of the controller, A.</param>
public sealed record Motor(double SpeedConstant, double WindingResistance, double NoLoadCurrent, double CurrentLimit);

/// <summary>A pack's declared data.</summary>
/// <param name="Cells">Cells in series.</param>
/// <param name="Chemistry">Such as LiPo, LiFePO4, NiMH.</param>
/// <param name="Capacity">Ah.</param>
/// <param name="Resistance">Whole pack, Ohm.</param>
public sealed record Pack(int Cells, string Chemistry, double Capacity, double Resistance);
