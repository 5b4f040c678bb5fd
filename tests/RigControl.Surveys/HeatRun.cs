using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>
/// A pack that a load warms, and that cools after it: long enough to tell heat, too long for the whole bench. The pack's core, which its
/// sensor sees, and its wrapping are those of the bench.
/// </summary>
internal sealed class HeatRun
{
    private const double Step = 0.1;
    private const double Idle = 0.05;

    // Of the same channel as a rig's.
    private const string Watched = ChannelNames.BatteryTemperature;

    private readonly double _ambient, _resistance, _current, _rise, _stop, _limit;
    private readonly Heat _heat;
    private readonly Dictionary<string, Series> _channels = [];

    public HeatRun(ulong seed)
    {
        SplitMix chance = new(seed * 6151 + 29);
        double Between(double low, double high) => chance.Uniform(low, high);
        _ambient = Between(10, 30);
        (_resistance, _current) = (Between(0.015, 0.06), Between(10, 30));
        _heat = new Heat(Between(60, 150), Between(10, 30), Between(1, 4), Between(0.3, 0.8));
        _rise = Between(5, 15);
        _stop = _rise + Between(100, 300);
        _limit = _ambient + Between(0.3, 0.8) * _resistance * _current * _current * PerWatt;
        double end = _stop + Between(300, 900), noise = Between(0.05, 0.3);
        Record(end, (Between(0.002, 0.02), Between(0.02, 0.15), noise), ref chance);
    }

    // K/W of the core in the long run.
    private double PerWatt => 1 / _heat.InnerToOuter + 1 / _heat.OuterToAmbient;

    /// <summary>The figures of heat with their truth, null where the run does not give one at all.</summary>
    public IEnumerable<(string Name, Figure? Figure, double Truth)> Figures()
    {
        Dictionary<string, double> truth = new()
        {
            ["thermal-time-constant"] = SlowConstant(), ["thermal-resistance"] = PerWatt, ["time-to-limit"] = TimeToLimit(),
            ["continuous-current"] = Math.Sqrt((_limit - _ambient) / (_resistance * PerWatt)),
        };
        FigureInput input = new(new Trace(_channels, SegmentFinder.Of(_channels).Segments), null, FigureContext.UsualRestSpeed)
        {
            TemperatureLimits = new Dictionary<string, double> { [Watched] = _limit },
        };
        IReadOnlyList<Figure> figures = FigureCatalog.Compute([.. truth.Keys], input);
        return truth.Select(t => (t.Key, figures.FirstOrDefault(f => f.Name == t.Key && f.Method.EndsWith(Watched, StringComparison.Ordinal)), t.Value));
    }

    private void Record(double end, (double Voltage, double Current, double Temperature) noise, ref SplitMix chance)
    {
        Sensor[] sensors =
        [
            new(ChannelNames.OutputThrottle, "%", Step, default) { Loses = false },
            new(ChannelNames.BatteryVoltage, "V", Step, new SensorNoise(noise.Voltage, 0.004, 0, 0)),
            new(ChannelNames.BatteryCurrent, "A", Step, new SensorNoise(noise.Current, 0.01, 0, 0)),
            new(Watched, "degC", 1, new SensorNoise(noise.Temperature, 0.1, 0, 0)),
            new(ChannelNames.AmbientTemperature, "degC", 1, new SensorNoise(noise.Temperature, 0.1, 0, 0)),
        ];
        HeatState state = new(_ambient, _ambient);
        for (int i = 0; i * Step < end; i++)
        {
            double now = i * Step, current = now >= _rise && now < _stop ? _current : Idle;
            double[] truth = [current > Idle ? 60 : 0, 12 - _resistance * current, current, state.Inner, _ambient];
            for (int k = 0; k < sensors.Length; k++)
                sensors[k].Watch(now, truth[k], ref chance);
            state.Advance(_heat, _resistance * current * current, 0, _ambient, Step);
        }

        foreach (Sensor sensor in sensors)
            _channels[sensor.Name] = sensor.Build();
    }

    // Of two lumps in a row, from the slower root of their equation: what one loses to the other, and both together to the air.
    private double SlowConstant()
    {
        double a = _heat.InnerToOuter / _heat.InnerCapacity, b = (_heat.InnerToOuter + _heat.OuterToAmbient) / _heat.OuterCapacity;
        double product = _heat.InnerToOuter * _heat.OuterToAmbient / (_heat.InnerCapacity * _heat.OuterCapacity), half = 0.5 * (a + b);
        return 1 / (half - Math.Sqrt(half * half - product));
    }

    private double TimeToLimit()
    {
        const double Short = 0.01;
        HeatState state = new(_ambient, _ambient);
        for (int i = 1; ; i++)
        {
            double before = state.Inner;
            state.Advance(_heat, _resistance * _current * _current, 0, _ambient, Short);
            if (state.Inner >= _limit)
                return Short * (i - 1 + (_limit - before) / (state.Inner - before));
        }
    }
}
