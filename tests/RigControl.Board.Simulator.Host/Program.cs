using System.CommandLine;
using System.ComponentModel;
using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Host;
using RigControl.Board.Simulator.Reactions;

var elf = new Option<FileInfo>("--elf") { Description = "The firmware to run (ELF).", Required = true };
var link = new Option<string?>("--link") { Description = "Name of a symbolic link to the pseudo-terminal." };
var seed = new Option<ulong>("--seed") { Description = "Seed of all noise on the bench.", DefaultValueFactory = _ => 1 };
var reactions = new Option<FileInfo?>("--reactions") { Description = "Measure every reaction in lock-step, write the table to this file and end." };
var phases = new Option<int>("--phases") { Description = "Moments of the servo frame to try for each reaction, 1 to 200.", DefaultValueFactory = _ => 20 };
phases.Validators.Add(result =>
{
    if (result.GetValue(phases) is < 1 or > 200)
        result.AddError("--phases is a number from 1 to 200.");
});
var command = new RootCommand("The rig board's firmware on a simulated processor, with a bench around it, behind a pseudo-terminal.")
{
    elf, link, seed, reactions, phases,
};

command.SetAction(parsed =>
{
    try
    {
        string firmware = parsed.GetValue(elf)!.FullName;
        if (parsed.GetValue(reactions) is { } table)
            File.WriteAllText(table.FullName, ReactionTable.Measure(firmware, parsed.GetValue(phases)));
        else
            using (var session = new Session(firmware, parsed.GetValue(link), parsed.GetValue(seed)))
                session.Run(Console.In, Console.Out);
        return 0;
    }
    catch (Exception problem) when (problem is BoardException or IOException or UnauthorizedAccessException or Win32Exception)
    {
        Console.Error.WriteLine(problem.Message);
        return 1;
    }
});

return command.Parse(args).Invoke();
