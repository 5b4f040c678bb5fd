using RigControl.Analysis.Traces;
using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>One channel as a sensor would have recorded it: its own rate, jitter of the moment, noise, steps, lost samples and a gap.</summary>
internal sealed class Sensor(string name, string unit, double period, SensorNoise noise)
{
    private const double Lost = 0.02;
    private const double Jitter = 0.1;

    private readonly List<double> _times = [];
    private readonly List<double> _values = [];
    private double _due;

    public string Name => name;

    /// <summary>Nothing is recorded from here, s, for <see cref="GapLength"/>.</summary>
    public double GapAt { get; init; } = double.PositiveInfinity;

    /// <summary>s.</summary>
    public double GapLength { get; init; }

    /// <summary>Whether samples are lost and their moments jitter.</summary>
    public bool Loses { get; init; } = true;

    /// <summary>Takes a sample where one is due at <paramref name="now"/>, s. Whether one was taken, read or lost.</summary>
    public bool Watch(double now, double truth, ref SplitMix chance)
    {
        if (now < _due - 1e-9)
            return false;
        _due += period * (Loses ? 1 + Jitter * chance.Uniform(-1, 1) : 1);
        double value = noise.Read(truth, ref chance);
        bool lost = Loses && chance.Uniform() < Lost;
        if (!lost && !(now > GapAt && now < GapAt + GapLength))
        {
            _times.Add(now);
            _values.Add(value);
        }

        return true;
    }

    /// <summary>What was recorded. The step is declared, as a rig's channel does.</summary>
    public Series Build() => new(unit, noise.Resolution, [.. _times], [.. _values]);
}
