using System.Globalization;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Failsafe;

/// <summary>A verification as JSON and as text.</summary>
internal static class FailsafeDocument
{
    public static object Of(Verified verified) => new
    {
        run = verified.Run,
        notProvoked = (verified.Proof?.NotProvoked ?? []).Select(n => new { name = n.Name, why = n.Why }),
        proof = verified.Proof is { } proof
            ? new { valid = true, validUntil = (string?)Instant(proof.ValidUntil), boundTo = proof.BoundTo, simulated = proof.Simulated }
            : new { valid = false, validUntil = (string?)null, boundTo = new SortedDictionary<string, string>(), simulated = false },
        ceiling = verified.Ceiling is { } ceiling
            ? new { throttle = Of(ceiling.Ceiling.Throttle * 100, "%"), speed = Of(ceiling.Ceiling.Speed, "rpm"), storedEnergy = ceiling.Energy is { } energy ? Of(energy, "J") : null, rotorRemoved = ceiling.IsRemoved }
            : null,
        provocations = verified.Results.Select(Of),
    };

    /// <summary>One of them.</summary>
    public static object Of(ProvocationResult r) => new
    {
        name = r.Name, stage = r.Stage, expected = r.Expected, seen = r.Seen, reaction = r.Reaction, allowed = r.Allowed, passed = r.Passed, onWord = r.OnWord,
        powerGone = r.PowerGone, powerAllowed = r.PowerAllowed, reserve = r.Reserve,
    };

    private static object? Of(double value, string unit) => new { value, unit };

    /// <summary>What was expected and seen, how long the power took, what a sign does not show, and whether it rests on a word: the same wherever it is read.</summary>
    public static string WhatOf(ProvocationResult result)
    {
        string power = result is { PowerGone: { } gone, PowerAllowed: { } most }
            ? string.Create(CultureInfo.InvariantCulture, $"; power gone after {gone * 1000:0} of {most * 1000:0} ms")
            : "";
        string reserve = result.Reserve is { } so ? $"; {so}" : "";
        string word = result.OnWord ? ProvocationResult.WordMark : "";
        return $"{(result.Passed ? result.Expected : $"expected {result.Expected}; {result.Seen}")}{power}{reserve}{word}";
    }

    public static IEnumerable<string> Lines(Verified verified)
    {
        int width = verified.Results.Max(r => r.Name.Length);
        int stage = 0;
        if (verified.Ceiling is { } ceiling)
            yield return ceiling.Sentence;
        foreach (ProvocationResult result in verified.Results)
        {
            if (result.Stage != stage)
                yield return Heading(stage = result.Stage);
            yield return Line(result, width);
        }

        foreach (Unprovoked left in verified.Proof?.NotProvoked ?? [])
            yield return $"  not provoked  {left.Name}: {left.Why}";
        yield return verified.Proof is { } proof
            ? $"the failsafe is proven{(proof.Simulated ? " on the simulated rig, which proves nothing of a real one" : "")}, until {proof.ValidUntil.UtcDateTime:yyyy-MM-dd HH:mm} UTC"
            : $"no proof: {WhyNot(verified)}";
    }

    private static string Heading(int stage) => stage switch
    {
        1 => "contacts, nothing live",
        2 => "pulses live, power off",
        _ => "turning slowly, power on",
    };

    private static string Line(ProvocationResult result, int width)
    {
        string time = result is { Reaction: { } reaction, Allowed: { } allowed }
            ? string.Create(CultureInfo.InvariantCulture, $"{reaction * 1000,6:0} of {allowed * 1000:0} ms")
            : "";
        string verdict = result.Passed ? "passed" : "FAILED";
        return $"  {verdict}  {result.Name.PadRight(width)}  {time,18}  {WhatOf(result)}";
    }

    private static string WhyNot(Verified verified) =>
        verified.Results.FirstOrDefault(r => !r.Passed) is { } failed ? $"{failed.Name}: {failed.Seen}" : verified.Result.Note ?? "the verification was not done to its end";

    private static string Instant(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
