using System.Diagnostics;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>Waits for what is to come. The limit only ends a test that would hang; nothing is measured by it.</summary>
internal static class Until
{
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(2);

    public static async Task True(Func<bool> condition, string what)
    {
        long began = Stopwatch.GetTimestamp();
        while (!condition())
        {
            Assert.True(Stopwatch.GetElapsedTime(began) < Limit, $"it never came: {what}");
            await Task.Delay(5, TestContext.Current.CancellationToken);
        }
    }
}
