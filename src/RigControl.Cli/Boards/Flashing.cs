using System.ComponentModel;
using System.Diagnostics;

namespace RigControl.Cli.Boards;

/// <summary>Writes the firmware through avrdude and a programmer. Fuses are never written: a wrong one can lock the chip for good.</summary>
/// <param name="Avrdude">The program to start.</param>
/// <param name="Programmer">Kind of programmer, as avrdude names it.</param>
/// <param name="Port">Port of the programmer; null where it needs none.</param>
/// <param name="Hex">Firmware file.</param>
internal sealed record Flashing(string Avrdude, string Programmer, string? Port, string Hex)
{
    private const string Chip = "m328p";

    /// <summary>The word that is to be typed before anything is written.</summary>
    public const string Consent = "flash";

    public IReadOnlyList<string> Arguments =>
        ["-p", Chip, "-c", Programmer, .. Port is null ? Array.Empty<string>() : ["-P", Port], "-U", $"flash:w:{Hex}:i"];

    /// <summary>Everything that stands against it, a sentence each.</summary>
    public IReadOnlyList<string> Objections()
    {
        List<string> objections = [];
        if (!File.Exists(Hex))
        {
            objections.Add(Hex == FirmwareFile.BesideTheProgram
                ? $"there is no firmware beside this program ({Hex}): make it in shared/board with `make firmware` (needs gcc-avr and avr-libc) and build this program again, or name a file with --hex"
                : $"there is no file {Hex}; name the firmware's HEX file");
        }
        else if (Unreadable() is { } fault)
        {
            objections.Add($"{Hex} is no firmware that could be written: {fault}");
        }

        if (Version() is null)
            objections.Add($"{Avrdude} does not start: install avrdude (on Debian: apt install avrdude), or say where it is with --avrdude");
        return objections;
    }

    /// <summary>Writes, with avrdude's own words on standard error. Returns avrdude's exit code; it reads back what it wrote by itself.</summary>
    public int Write()
    {
        ProcessStartInfo start = new(Avrdude, Arguments) { RedirectStandardInput = true };
        using Process process = Process.Start(start)!;
        process.StandardInput.Close();
        process.WaitForExit();
        return process.ExitCode;
    }

    private string? Unreadable()
    {
        try
        {
            return FirmwareFile.Fault(File.ReadAllLines(Hex));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return e.Message;
        }
    }

    private string? Version()
    {
        try
        {
            using Process process = Process.Start(new ProcessStartInfo(Avrdude, ["-?"]) { RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true })!;
            process.StandardInput.Close();
            Task<string> output = process.StandardOutput.ReadToEndAsync();
            string errors = process.StandardError.ReadToEnd();
            process.WaitForExit();
            return output.Result + errors;
        }
        catch (Exception e) when (e is Win32Exception or InvalidOperationException)
        {
            return null;
        }
    }
}
