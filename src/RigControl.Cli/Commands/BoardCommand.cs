using System.CommandLine;
using RigControl.Cli.Boards;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Contracts;
using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Commands;

/// <summary><c>board</c>: finds rig boards on this machine's ports, and writes their firmware.</summary>
internal static class BoardCommand
{
    public static Command Build() => new("board", "Finds rig boards, and writes their firmware.") { FindCommand(), FlashCommand() };

    private static Command FindCommand()
    {
        Option<string[]> ports = new("--port") { Description = "Look only there; may be given several times. Default: every adapter that is plugged in.", HelpName = "PORT" };
        (Option<bool> json, Option<string?> plugins) = (CommonOptions.Json(), CommonOptions.Plugins());
        Command command = new("find", "Listens at every serial port and says which is a rig board. Writes to nothing that is none.") { ports, json, plugins };
        command.SetAction(parsed => Find(
            PluginCatalog.Load(parsed.GetValue(plugins) ?? PluginCatalog.DefaultFolder), parsed.GetValue(ports) ?? [], parsed.GetValue(json)));
        return command;
    }

    private static Command FlashCommand()
    {
        Option<string> programmer = new("--programmer") { Description = "Kind of in-circuit programmer, as avrdude names it (avrdude -c ? lists them).", HelpName = "KIND", Required = true };
        Option<string?> port = new("--programmer-port") { Description = "Port of the programmer, where it needs one. Not the board's serial port.", HelpName = "PORT" };
        Option<string?> hex = new("--hex") { Description = "Firmware file. Default: the one that the build laid beside the program.", HelpName = "FILE" };
        Option<string?> avrdude = new("--avrdude") { Description = "Where avrdude is. Default: wherever the system finds it.", HelpName = "PROGRAM" };
        Command command = new("flash", "Writes the firmware through avrdude and an in-circuit programmer, after asking. Never writes fuses.") { programmer, port, hex, avrdude };
        command.SetAction(parsed => Flash(new Flashing(
            parsed.GetValue(avrdude) ?? "avrdude", parsed.GetValue(programmer)!, parsed.GetValue(port), parsed.GetValue(hex) ?? FirmwareFile.BesideTheProgram)));
        return command;
    }

    private static int Find(PluginCatalog catalog, string[] ports, bool json)
    {
        IFindable[] searchers = [.. catalog.Devices.Values.OfType<IFindable>()];
        if (searchers.Length == 0)
            throw new CliException(ExitCode.BadInput, "no installed plugin can look for devices; rigcontrol plugins lists what is installed");
        Finding[] found = [.. searchers.SelectMany(s => s.Find(ports))];
        if (json)
            JsonText.Write(new { ports = found.Select(f => new { port = f.Place, board = f.IsOne, says = f.Says, identity = f.Identity }) });
        else
            Print(found);
        if (found.Any(f => f.IsOne))
            return ExitCode.Done;
        throw new CliException(ExitCode.DeviceOrStorage, ["no rig board was found. What to check:", .. searchers.SelectMany(s => s.WhenNothing).Select(w => $"  - {w}")]);
    }

    private static void Print(Finding[] found)
    {
        foreach (Finding finding in found)
            Console.WriteLine($"{finding.Place}: {finding.Says}");
        if (found.FirstOrDefault(f => f.IsOne) is { } board)
            Console.WriteLine($"Write it into the rig file, under the board's options: port: {board.Place}");
    }

    private static int Flash(Flashing flashing)
    {
        if (flashing.Objections() is { Count: > 0 } objections)
            throw new CliException(ExitCode.Refused, [.. objections.Select(o => $"refused: {o}")]);
        Console.Error.WriteLine($"This erases the chip and writes {flashing.Hex} with:");
        Console.Error.WriteLine($"  {flashing.Avrdude} {string.Join(' ', flashing.Arguments)}");
        Console.Error.WriteLine("While it is written the board holds nothing: rotor off, pack disconnected, contactor supply off.");
        Console.Error.WriteLine("Fuses are not written. docs/board.md tells which the firmware needs and how they are set, once, by hand.");
        Console.Error.Write($"Type  {Flashing.Consent}  and press ENTER; anything else writes nothing: ");
        if (Console.In.ReadLine()?.Trim() != Flashing.Consent)
            throw new CliException(ExitCode.Refused, "nothing was written");
        int code = flashing.Write();
        if (code != 0)
            throw new CliException(ExitCode.DeviceOrStorage, $"avrdude ended with code {code}: the chip may hold half a program, which the board finds out by itself and then drives nothing; look at the programmer's wiring and write again");
        Console.WriteLine("the firmware is written and was read back; power the board afresh, then: rigcontrol board find");
        return ExitCode.Done;
    }
}
