using System.Runtime.ExceptionServices;
using RigControl.Contracts;

namespace RigControl.Runtime.Devices;

/// <summary>Calls into a plugin that may never come back, where nothing else watches the call.</summary>
internal static class Patience
{
    /// <summary>What <paramref name="call"/> returns or throws; one that does not come back is left behind on its thread.</summary>
    /// <exception cref="DeviceException">It has not come back within <paramref name="longest"/>.</exception>
    public static T Of<T>(TimeSpan longest, Func<T> call)
    {
        T? answer = default;
        ExceptionDispatchInfo? failure = null;
        Thread thread = new(() =>
        {
            try
            {
                answer = call();
            }
#pragma warning disable CA1031 // Thrown again where it was asked for.
            catch (Exception e)
#pragma warning restore CA1031
            {
                failure = ExceptionDispatchInfo.Capture(e);
            }
        })
        { Name = "plugin", IsBackground = true };
        thread.Start();
        if (!thread.Join(longest))
            throw new DeviceException($"it has not come back for {longest.TotalSeconds:0} s");
        failure?.Throw();
        return answer!;
    }
}
