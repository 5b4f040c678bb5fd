using System.Diagnostics;
using System.Globalization;

namespace RigControl.Benchmarks;

/// <summary>
/// What this machine can do at all: <c>cyclictest</c> (package rt-tests), a thread of the same priority and period as the scan's,
/// run beside it.
/// </summary>
internal sealed class CyclicTest : IDisposable
{
    private readonly Process? _process;

    /// <param name="seconds">How long it measures.</param>
    public CyclicTest(double seconds)
    {
        // A histogram of whole microseconds up to a fifth of a second; --mlockall and the priority are those of the scan's thread.
        ProcessStartInfo start = new("cyclictest", string.Create(CultureInfo.InvariantCulture, $"--mlockall --priority=40 --interval=1000 --threads=1 --quiet --histogram=200000 --duration={seconds:0}"))
        {
            RedirectStandardOutput = true, RedirectStandardError = true,
        };
        try
        {
            _process = Process.Start(start);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Console.Error.WriteLine("cyclictest is not installed (package rt-tests): the lateness stands without its reference");
        }
    }

    /// <summary>Waits for its end. Latencies in us, or null where it could not run.</summary>
    public Spread? Finish()
    {
        if (_process is null)
            return null;
        string said = _process.StandardOutput.ReadToEnd();
        _process.WaitForExit();
        List<double> latencies = [];
        foreach (string line in said.Split('\n').Where(l => l.Length > 0 && char.IsAsciiDigit(l[0])))
        {
            string[] fields = line.Split((char[])[' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
            int count = int.Parse(fields[1], CultureInfo.InvariantCulture);
            latencies.AddRange(Enumerable.Repeat(double.Parse(fields[0], CultureInfo.InvariantCulture), count));
        }

        return latencies.Count == 0 ? null : new Spread([.. latencies]);
    }

    public void Dispose() => _process?.Dispose();
}
