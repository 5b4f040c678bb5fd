using System.Globalization;
using RigControl.EndToEnd.Tests.Killing;
using Xunit.MicrosoftTestingPlatform;
using Xunit.Runner.InProc.SystemConsole;

namespace RigControl.EndToEnd.Tests;

/// <summary>Runs the tests, or, asked to, kills whole runs.</summary>
internal static class Program
{
    public static async Task<int> Main(string[] arguments)
    {
        if (arguments is [KilledRuns.Option, string kills, string seed])
            return KilledRuns.Run(int.Parse(kills, CultureInfo.InvariantCulture), int.Parse(seed, CultureInfo.InvariantCulture));
        if (arguments.Any(argument => argument is "-automated" or "@@"))
            return await ConsoleRunner.Run(arguments);
        return await TestPlatformTestFramework.RunAsync(arguments, SelfRegisteredExtensions.AddSelfRegisteredExtensions);
    }
}
