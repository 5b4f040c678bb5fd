using RigControl.Analysis.Answers;
using static RigControl.Analysis.Figures.ArticlePart;
using static RigControl.Analysis.Figures.RunPart;
using static RigControl.Model.Signals.ChannelNames;

namespace RigControl.Analysis.Figures;

/// <summary>One figure: its unit, how it is computed in a few words and in code, and what it needs.</summary>
internal sealed record FigureKind(string Unit, string Method, FigureNeeds Needs)
{
    public Func<FigureContext, Measured>? OfRepeat { get; init; }

    /// <summary>Once for every temperature channel.</summary>
    public Func<FigureContext, string, Measured>? OfTemperature { get; init; }

    public Func<FigureInput, Measured>? OfRun { get; init; }

    /// <summary>Once for every question that was answered, with what it is of.</summary>
    public Func<FigureInput, IEnumerable<(string Of, Measured Figure)>>? OfAnswers { get; init; }

    /// <summary>The same, asked at something that has to be stated.</summary>
    public FigureKind At(AskedPart part) => this with { Needs = Needs with { Asked = [part] } };

    /// <summary>The same, asked up to a temperature that has to be stated.</summary>
    public FigureKind ToLimit() => this with { Needs = Needs with { Limit = true } };
}

/// <summary>Every figure that this version computes, in one line each.</summary>
internal static class FigureTable
{
    public static IReadOnlyDictionary<string, FigureKind> Kinds { get; } = new Dictionary<string, FigureKind>
    {
        ["spin-up-time"] = Repeat("s", "first demand to 90 % of the steady speed", SpeedFigures.SpinUpTime, [RotorSpeed], [], [Rise, Hold]),
        ["time-constant"] = Repeat("s", "approach to the steady speed, fitted with current limit and drag", SpeedFigures.TimeConstant, [RotorSpeed], [], [Rise]),
        ["time-to-speed"] = Repeat("s", "first demand to the stated speed, on the fitted rise", RiseFigures.TimeToSpeed, [RotorSpeed], [], [Rise]).At(AskedPart.ToSpeed),
        ["settling-time"] = Repeat("s", "first demand until the speed stays close to the steady one", RiseFigures.SettlingTime, [RotorSpeed], [], [Rise, Hold]),
        ["steady-speed"] = Repeat("rpm", "mean of the second half of the hold", c => c.SteadySpeed, [RotorSpeed], [], [Hold]),
        ["peak-speed"] = Repeat("rpm", "highest reading, or highest of short means where readings scatter", c => c.PeakSpeed, [RotorSpeed], [], [Rise]),
        ["tip-speed"] = Repeat("m/s", "peak speed times declared tip radius", SpeedFigures.TipSpeed, [RotorSpeed], [Rotor], [Rise]),
        ["stored-energy"] = Repeat("J", "declared inertia at peak speed", SpeedFigures.StoredEnergy, [RotorSpeed], [Rotor], [Rise]),
        ["coast-down-time"] = Repeat("s", "stop output to rest speed", SpeedFigures.CoastDownTime, [RotorSpeed], [], [CoastDown]),
        ["speed-after"] = Repeat("rpm", "fitted coast-down at the stated time", DragFigures.SpeedAfter, [RotorSpeed], [NoBraking], [CoastDown]).At(AskedPart.After),
        ["energy-after"] = Repeat("J", "declared inertia at the speed of the stated time", DragFigures.EnergyAfter, [RotorSpeed], [Rotor, NoBraking], [CoastDown]).At(AskedPart.After),
        ["drag-constant"] = Repeat("N.m", "trajectory of the coast-down", DragFigures.Constant, [RotorSpeed], [Rotor, NoBraking], [CoastDown]),
        ["drag-linear"] = Repeat("N.m.s", "trajectory of the coast-down", DragFigures.Linear, [RotorSpeed], [Rotor, NoBraking], [CoastDown]),
        ["drag-quadratic"] = Repeat("N.m.s2", "trajectory of the coast-down", DragFigures.Quadratic, [RotorSpeed], [Rotor, NoBraking], [CoastDown]),
        ["peak-current"] = Repeat("A", "highest, behind samples that scatter", PowerFigures.PeakCurrent, [BatteryCurrent], [], [Rise]),
        ["mean-current"] = Repeat("A", "mean over the time with output on", PowerFigures.MeanCurrent, [BatteryCurrent], [], [Rise]),
        ["minimum-voltage"] = Repeat("V", "lowest, behind samples that scatter", PowerFigures.MinimumVoltage, [BatteryVoltage], [], [Rise]),
        ["voltage-sag"] = Repeat("V", "rested voltage, from the fall with the current, less the lowest", PowerFigures.VoltageSag, [BatteryVoltage, BatteryCurrent], [], [Rise]),
        ["peak-power"] = Repeat("W", "highest product of voltage and current", PowerFigures.PeakPower, [BatteryVoltage, BatteryCurrent], [], [Rise]),
        ["pack-resistance"] = Repeat("Ohm", "fall of the voltage with the current", c => c.PackResistance, [BatteryVoltage, BatteryCurrent], [], [Rise]),
        ["match-share"] = Repeat("%", "mean current over the stated match, over declared capacity", MatchFigures.Share, [BatteryCurrent], [Pack], [Rise]).At(AskedPart.Match),
        ["state-of-charge"] = Repeat("%", "rested voltage of a cell on a chart of LiPo cells", ChargeFigures.AtRest, [BatteryVoltage, BatteryCurrent], [Pack], [Rise]),
        ["motor-kv"] = Repeat("rpm/V", "voltage against current and speed at held levels and on slow ramps; throttle taken for duty", MotorFigures.SpeedConstant, Drive, [], [Rise]),
        ["torque-constant"] = Repeat("N.m/A", "back-EMF constant, voltage against current and speed at held levels and on slow ramps; throttle taken for duty", MotorFigures.TorqueConstant, Drive, [], [Rise]),
        ["winding-resistance"] = Repeat("Ohm", "voltage against current and speed at held levels and on slow ramps; with the controller's; throttle taken for duty", MotorFigures.Resistance, Drive, [], [Rise]),
        ["no-load-current"] = Repeat("A", "winding current of the second half of the hold", MotorFigures.NoLoadCurrent, Drive, [NoRotor], [Hold]),
        ["stall-current"] = Repeat("A", "output on and rotor standing, first second", MotorFigures.StallCurrent, [RotorSpeed, BatteryCurrent, OutputThrottle], [], [Rise]),
        ["peak-torque"] = Repeat("N.m", "fitted rise of the declared inertia with drag added back", MotorFigures.PeakTorque, [RotorSpeed], [Rotor], [Rise]),
        ["peak-mechanical-power"] = Repeat("W", "fitted rise of the declared inertia with drag added back, torque times speed", MotorFigures.PeakMechanicalPower, [RotorSpeed], [Rotor], [Rise]),
        ["best-efficiency"] = Repeat("%", "shaft power from the acceleration over pack power", MotorFigures.BestEfficiency, [RotorSpeed, BatteryVoltage, BatteryCurrent], [Rotor], [Rise]),
        ["temperature-rise"] = Temperature("K", "highest minus first", HeatFigures.Rise, [Rise], []),
        ["thermal-time-constant"] = Temperature("s", "cooling after the output went off", HeatFigures.TimeConstant, [CoastDown], [AmbientTemperature]),
        ["thermal-resistance"] = Temperature("K/W", "heat in the resistance, with a motor's losses at no load, and cooling,", HeatingFigures.Resistance, [Rise], [BatteryCurrent, BatteryVoltage, AmbientTemperature]),
        ["time-to-limit"] = Temperature("s", "heating by the square of the current, and cooling,", HeatingFigures.TimeToLimit, [Rise], [BatteryCurrent, AmbientTemperature]).ToLimit(),
        ["continuous-current"] = Temperature("A", "heating by the square of the current, and cooling,", HeatingFigures.ContinuousCurrent, [Rise], [BatteryCurrent, AmbientTemperature]).ToLimit(),
        ["peak-voltage"] = Run("V", "highest of the whole run, behind samples that scatter", PowerFigures.PeakVoltage, [BatteryVoltage], []),
        ["charge-used"] = Run("Ah", "trapezoidal rule over the whole run", PowerFigures.ChargeUsed, [BatteryCurrent], []),
        ["energy-used"] = Run("Wh", "trapezoidal rule over the whole run", PowerFigures.EnergyUsed, [BatteryVoltage, BatteryCurrent], []),
        ["battery-share"] = Run("%", "charge used over declared capacity", PowerFigures.BatteryShare, [BatteryCurrent], [Pack]),
        ["mass"] = Answered("g", "mean", AnswerFigures.Mass),
        ["success-rate"] = Answered("%", "passed over tried, mid-P limits,", AnswerFigures.SuccessRate),
    };

    private static string[] Drive => [RotorSpeed, BatteryVoltage, BatteryCurrent, OutputThrottle];

    private static FigureKind Repeat(string unit, string method, Func<FigureContext, Measured> compute, string[] channels, ArticlePart[] declared, RunPart[] steps) =>
        new(unit, method, new FigureNeeds(channels, declared, steps)) { OfRepeat = compute };

    private static FigureKind Temperature(string unit, string method, Func<FigureContext, string, Measured> compute, RunPart[] steps, string[] besides) =>
        new(unit, method, new FigureNeeds([], [], steps) { AnyTemperature = true, Besides = besides }) { OfTemperature = compute };

    private static FigureKind Run(string unit, string method, Func<FigureInput, Measured> compute, string[] channels, ArticlePart[] declared) =>
        new(unit, method, new FigureNeeds(channels, declared, [])) { OfRun = compute };

    private static FigureKind Answered(string unit, string method, Func<FigureInput, IEnumerable<(string, Measured)>> compute) =>
        new(unit, method, new FigureNeeds([], [], [Question])) { OfAnswers = compute };
}
