using System.Globalization;
using RigControl.Logbook.Tests.Support;
using Xunit.MicrosoftTestingPlatform;
using Xunit.Runner.InProc.SystemConsole;

namespace RigControl.Logbook.Tests;

/// <summary>Runs the tests, or, asked to, records until it is killed, or kills such recorders.</summary>
internal static class Program
{
    public static async Task<int> Main(string[] arguments)
    {
        if (arguments is [EndlessWriter.Option, string logbook, string run])
            return EndlessWriter.Record(logbook, run);
        if (arguments is [KillCampaign.Option, string kills, string seed])
            return KillCampaign.Run(int.Parse(kills, CultureInfo.InvariantCulture), int.Parse(seed, CultureInfo.InvariantCulture));
        if (arguments.Any(argument => argument is "-automated" or "@@"))
            return await ConsoleRunner.Run(arguments);
        return await TestPlatformTestFramework.RunAsync(arguments, SelfRegisteredExtensions.AddSelfRegisteredExtensions);
    }
}
