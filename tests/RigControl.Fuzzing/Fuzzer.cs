namespace RigControl.Fuzzing;

/// <summary>An input that broke a promise.</summary>
/// <param name="Seed">That makes it again.</param>
/// <param name="Input">As found.</param>
/// <param name="What">What went wrong.</param>
public sealed record Crasher(int Seed, byte[] Input, string What);

/// <summary>Feeds a target with spoilt inputs, one for each seed.</summary>
public static class Fuzzer
{
    /// <summary>Tries one seed.</summary>
    public static Crasher? Try(ITarget target, Mutator mutator, int seed)
    {
        byte[] input = mutator.Next(new Random(seed));
        return WhatBreaks(target, input) is { } what ? new Crasher(seed, input, what) : null;
    }

    /// <summary>What a target does wrong with an input, or null.</summary>
    public static string? WhatBreaks(ITarget target, byte[] input)
    {
        try
        {
            target.Take(input);
            return null;
        }
#pragma warning disable CA1031 // Whatever comes out is what was looked for.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return e.ToString();
        }
    }

    /// <summary>The shortest input that can be had from a crasher by leaving out pieces, and that still breaks a promise.</summary>
    public static byte[] Shorten(ITarget target, byte[] input)
    {
        for (int piece = input.Length / 2; piece > 0; piece /= 2)
        {
            for (int at = 0; at + piece <= input.Length;)
            {
                byte[] without = [.. input.AsSpan(0, at), .. input.AsSpan(at + piece)];
                if (WhatBreaks(target, without) is null)
                    at += piece;
                else
                    input = without;
            }
        }

        return input;
    }
}
