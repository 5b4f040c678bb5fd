using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using RigControl.Analysis.Traces;

namespace RigControl.Benchmarks;

/// <summary>The estimators of figures.py, run on the same trace by a Python that has scipy.</summary>
internal static class GeneralLibrary
{
    private static readonly string[] Pythons = ["/usr/bin/python3", "python3"];

    /// <summary>Least processor time of several rounds, ms, without starting up and reading; null where no Python has scipy.</summary>
    public static double? Milliseconds(Dictionary<string, Series> channels)
    {
        string file = Path.GetTempFileName();
        try
        {
            using (FileStream stream = File.Create(file))
            {
                stream.Write(MemoryMarshal.AsBytes(channels.Values.First().Times.AsSpan()));
                foreach (Series series in channels.Values)
                    stream.Write(MemoryMarshal.AsBytes(series.Values.AsSpan()));
            }

            string script = Path.Combine(AppContext.BaseDirectory, "figures.py");
            return Pythons.Select(p => Run(p, script, file)).FirstOrDefault(ms => ms is not null);
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static double? Run(string python, string script, string file)
    {
        try
        {
            using Process process = Process.Start(new ProcessStartInfo(python, [script, file]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            if (process.ExitCode != 0)
                return null;
            string[] lines = output.Trim().Split('\n');
            foreach (string line in lines[..^1])
                Console.Error.WriteLine("scipy: " + line);
            return double.Parse(lines[^1], CultureInfo.InvariantCulture);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
