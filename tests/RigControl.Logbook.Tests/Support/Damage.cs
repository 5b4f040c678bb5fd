namespace RigControl.Logbook.Tests.Support;

/// <summary>What a bad disk does to a block.</summary>
internal static class Damage
{
    public static void Any(Random random, ref byte[] block)
    {
        if (random.Next(4) == 0)
            block = block[..random.Next(block.Length)];
        for (int changes = random.Next(1, 4); changes > 0 && block.Length > 0; changes--)
            block[random.Next(block.Length)] = (byte)random.Next(256);
    }
}
