using System.Security.Cryptography;
using System.Text.Json;

namespace RigControl.Runtime.Failsafe;

/// <summary>Seals proofs with a key of this machine, so that one that was edited in the logbook, or brought from elsewhere, shows.</summary>
public static class ProofSeal
{
    /// <summary>Length of a machine's key, bytes: that of the digest.</summary>
    public const int KeyLength = 32;

    public static FailsafeProof Seal(FailsafeProof proof, ReadOnlySpan<byte> key) => proof with { Seal = Of(proof, key) };

    public static bool IsWhole(FailsafeProof proof, ReadOnlySpan<byte> key) => CryptographicOperations.FixedTimeEquals(
        System.Text.Encoding.ASCII.GetBytes(proof.Seal), System.Text.Encoding.ASCII.GetBytes(Of(proof, key)));

    private static string Of(FailsafeProof proof, ReadOnlySpan<byte> key) =>
        Convert.ToHexStringLower(HMACSHA256.HashData(key, (byte[])[.. JsonSerializer.SerializeToUtf8Bytes(new
        {
            proof.Run, MadeAt = proof.MadeAt.UtcTicks, ValidUntil = proof.ValidUntil.UtcTicks, proof.Simulated,
            Clock = proof.Clock is { } clock ? $"{clock.Wall.UtcTicks} {clock.Start} {clock.Up.Ticks}" : "",
            BoundTo = proof.BoundTo.OrderBy(b => b.Key, StringComparer.Ordinal).Select(b => $"{b.Key}={b.Value}"), proof.Provocations,
        }), .. proof.NotProvoked is { Count: > 0 } left ? JsonSerializer.SerializeToUtf8Bytes(left) : []]));
}
