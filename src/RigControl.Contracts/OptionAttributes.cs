namespace RigControl.Contracts;

/// <summary>
/// A quantity: a <see cref="double"/> property held in <paramref name="unit"/>. The file writes any unit of the same kind.
/// The property's name in kebab-case is the option's name; its initial value is the default. One that starts as
/// <see cref="double.NaN"/> has no default and is required: a limit that nobody has set compares false with every
/// reading, so that it could only ever trip. What a limit has to be is the builder's to say, never a plugin's.
/// </summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class QuantityAttribute(string unit, double minimum, double maximum) : Attribute
{
    public string Unit { get; } = unit;

    public double Minimum { get; } = minimum;

    public double Maximum { get; } = maximum;
}

/// <summary>A whole number: an <see cref="int"/> property, or a nullable one that starts as null and is then required.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class CountAttribute(int minimum, int maximum) : Attribute
{
    public int Minimum { get; } = minimum;

    public int Maximum { get; } = maximum;
}

/// <summary>The name of a channel of the rig: a <see cref="string"/> property. One that starts empty is required.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class ChannelNameAttribute : Attribute;

/// <summary>What the option means, in one sentence for files, tables and error messages. Every option has one.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class MeaningAttribute(string sentence) : Attribute
{
    public string Sentence { get; } = sentence;
}
