using RigControl.Logbook.Tests.Support;
using Xunit.MicrosoftTestingPlatform;
using Xunit.Runner.InProc.SystemConsole;

namespace RigControl.Logbook.Tests;

/// <summary>Runs the tests, or, asked to, records until it is killed.</summary>
internal static class Program
{
    public static async Task<int> Main(string[] arguments)
    {
        if (arguments is [EndlessWriter.Option, string logbook, string run])
            return EndlessWriter.Record(logbook, run);
        if (arguments.Any(argument => argument is "-automated" or "@@"))
            return await ConsoleRunner.Run(arguments);
        return await TestPlatformTestFramework.RunAsync(arguments, SelfRegisteredExtensions.AddSelfRegisteredExtensions);
    }
}
