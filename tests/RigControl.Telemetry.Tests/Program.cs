using RigControl.Telemetry.Tests.Support;
using Xunit.MicrosoftTestingPlatform;
using Xunit.Runner.InProc.SystemConsole;

namespace RigControl.Telemetry.Tests;

/// <summary>Runs the tests, or, asked to, is a host that publishes until it is killed.</summary>
internal static class Program
{
    public static async Task<int> Main(string[] arguments)
    {
        if (arguments is [EndlessHost.Option, string port, string folder])
            return EndlessHost.Publish(port, folder);
        if (arguments.Any(argument => argument is "-automated" or "@@"))
            return await ConsoleRunner.Run(arguments);
        return await TestPlatformTestFramework.RunAsync(arguments, SelfRegisteredExtensions.AddSelfRegisteredExtensions);
    }
}
