namespace RigControl.Fuzzing;

/// <summary>Something that takes bytes from outside, with the promises that it keeps whatever they are.</summary>
public interface ITarget
{
    /// <summary>Kebab-case name, for the command line and the folder of what broke it.</summary>
    string Name { get; }

    /// <summary>Valid inputs, from which the spoilt ones are made.</summary>
    IReadOnlyList<byte[]> Corpus { get; }

    /// <summary>Takes one input. Throws <see cref="BrokenPromiseException"/>, or whatever the code under test lets through.</summary>
    void Take(byte[] input);
}

/// <summary>The code under test did what it promised never to do.</summary>
public sealed class BrokenPromiseException(string message) : Exception(message);
