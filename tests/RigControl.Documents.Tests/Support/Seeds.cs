namespace RigControl.Documents.Tests.Support;

/// <summary>Runs a property over many seeds; what fails names the seed that shows it.</summary>
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
            catch (Exception e)
            {
                throw new Xunit.Sdk.XunitException($"Seed {seed}: {e}");
            }
        }
    }
}
