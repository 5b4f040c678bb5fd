namespace RigControl.Logbook.Tests.Support;

/// <summary>Runs a property over many seeds; a failure says which seed, so that it can be run alone.</summary>
internal static class Seeds
{
    public static void Each(int count, Action<Random> property)
    {
        for (int seed = 0; seed < count; seed++)
        {
            try
            {
                property(new Random(seed));
            }
            catch (Exception failure)
            {
                throw new InvalidOperationException($"seed {seed}: {failure.Message}", failure);
            }
        }
    }
}
