using System.Text.RegularExpressions;

namespace RigControl.Mutants.Trying;

/// <summary>What the tests said of a changed program.</summary>
/// <param name="IsCaught">Whether they were not content.</param>
/// <param name="By">The test that noticed, or how the run ended; empty where nothing noticed.</param>
public sealed partial record Verdict(bool IsCaught, string By)
{
    public static readonly Verdict Unnoticed = new(false, "");

    /// <summary>Of a run of tests of ours in C#.</summary>
    public static Verdict OfTests(Ended run) => Of(run, FailedTest());

    /// <summary>Of a run of the firmware's own tests in C.</summary>
    public static Verdict OfFirmwareTests(Ended run) => Of(run, FailedFirmwareTest());

    private static Verdict Of(Ended run, Regex failed)
    {
        if (run.Code == 0)
            return Unnoticed;
        if (failed.Match(run.Output) is { Success: true } test)
            return new Verdict(true, test.Groups[1].Value.Trim());
        return new Verdict(true, run.Code is { } code ? $"the tests broke off with code {code}" : "the tests did not come to an end");
    }

    [GeneratedRegex(@"^failed RigControl\.(?:\w+\.)*Tests\.(.+?) \([^()]*\)\s*$", RegexOptions.Multiline)]
    private static partial Regex FailedTest();

    [GeneratedRegex("^FAILED (.+)$", RegexOptions.Multiline)]
    private static partial Regex FailedFirmwareTest();
}
