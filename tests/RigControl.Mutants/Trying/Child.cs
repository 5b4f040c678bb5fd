using System.Diagnostics;

namespace RigControl.Mutants.Trying;

/// <summary>How a program that was started came to its end.</summary>
/// <param name="Code">What it gave back; null where it had to be ended.</param>
/// <param name="Output">All that it said.</param>
public sealed record Ended(int? Code, string Output);

/// <summary>Starts other programs and waits for them.</summary>
public static class Child
{
    /// <param name="program">The program.</param>
    /// <param name="arguments">What it is told.</param>
    /// <param name="folder">Where it runs.</param>
    /// <param name="longest">When it is ended: a changed program may go on for ever.</param>
    public static Ended Run(string program, IEnumerable<string> arguments, string folder, TimeSpan longest)
    {
        ProcessStartInfo start = new(program, arguments) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        // A changed program must not write the pages anew that it is held against.
        start.Environment.Remove("UPDATE_DOCS");
        start.Environment["DOTNET_TieredPGO"] = "0";
        start.Environment["MSBUILDDISABLENODEREUSE"] = "1";
        using Process process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start");
        Task<string> output = process.StandardOutput.ReadToEndAsync(), errors = process.StandardError.ReadToEndAsync();
        bool ended = process.WaitForExit(longest);
        if (!ended)
            process.Kill(entireProcessTree: true);
        process.WaitForExit();
        return new Ended(ended ? process.ExitCode : null, output.Result + errors.Result);
    }
}
