using Serilog;
using Serilog.Core;

namespace RigControl.Cli;

/// <summary>Where faults of the program itself are written in full, for whoever mends it.</summary>
internal sealed class Diagnostics : IDisposable
{
    private readonly string _file = Path.Combine(
        Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "rigcontrol", "faults.log");

    private Logger? _log;

    /// <summary>Writes a fault to the log and returns the sentence for the terminal.</summary>
    public string Report(Exception fault)
    {
        try
        {
            _log ??= new LoggerConfiguration().WriteTo.File(_file, fileSizeLimitBytes: 1 << 20, rollOnFileSizeLimit: true, retainedFileCountLimit: 4).CreateLogger();
            _log.Error(fault, "fault");
            return $"a fault in the program itself: {fault.Message}; the whole of it is in {_file}";
        }
#pragma warning disable CA1031 // Nothing may hide the fault, least of all the log.
        catch (Exception)
#pragma warning restore CA1031
        {
            return $"a fault in the program itself: {fault}";
        }
    }

    public void Dispose() => _log?.Dispose();
}
