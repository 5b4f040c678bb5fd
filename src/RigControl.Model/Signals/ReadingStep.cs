namespace RigControl.Model.Signals;

/// <summary>
/// The step to which a channel's readings are rounded. Steps of a tenth or a hundredth have no exact double, so that a
/// count of them is divided by ten or a hundred: 199 steps of 0.1 are 19.9, not 19.900000000000002.
/// </summary>
public readonly struct ReadingStep
{
    private readonly double _perUnit;

    /// <param name="size">In the channel's unit; 0 or anything that is no finite positive number: values are kept as they came.</param>
    public ReadingStep(double size)
    {
        Size = size > 0 && double.IsFinite(size) ? size : 0;
        double perUnit = IsDefined ? Math.Round(1 / Size) : 0;
        _perUnit = perUnit > 1 && 1 / perUnit == Size ? perUnit : 0;
    }

    /// <summary>In the channel's unit; 0 where values are kept as they came.</summary>
    public double Size { get; }

    public bool IsDefined => Size > 0;

    /// <summary>The nearest whole number of steps.</summary>
    public double CountOf(double value) => Math.Round(_perUnit > 0 ? value * _perUnit : value / Size);

    /// <summary>The value of a whole number of steps.</summary>
    public double ValueOf(double count) => _perUnit > 0 ? count / _perUnit : count * Size;

    /// <summary>A value as the record keeps it.</summary>
    public double Rounded(double value) => IsDefined ? ValueOf(CountOf(value)) : value;
}
