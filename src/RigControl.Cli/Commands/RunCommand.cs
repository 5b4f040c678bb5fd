using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Cli.Runs;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Commands;

/// <summary><c>run</c>: the procedure, live, recorded, with its figures at the end.</summary>
internal static class RunCommand
{
    public static Command Build()
    {
        Argument<string?> procedure = new("PROCEDURE") { Description = "Procedure file. Default: the enclosed spin-up, on the simulated rig only.", Arity = ArgumentArity.ZeroOrOne };
        procedure.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: ['-', '-', ..] } unknown])
                result.AddError($"there is no option {unknown.Value}; --help lists those there are");
        });
        Option<string?> rig = CommonOptions.Rig();
        Option<string?> article = CommonOptions.Article();
        Option<string?> logbook = CommonOptions.Logbook();
        Option<string?> plugins = CommonOptions.Plugins();
        Option<bool> json = CommonOptions.Json();
        Option<string?> pace = new("--pace") { Description = "real, max or a factor from 0.01 to 1000; simulated rigs only. Default: real.", HelpName = "PACE" };
        Option<ulong?> seed = new("--seed") { Description = "Seed of everything random; simulated rigs only. Default: 1.", HelpName = "N" };
        Option<string?> bench = new("--operator")
        {
            Description = "terminal, or scripted, which answers by itself and needs a simulated rig. Default: scripted at another pace than real.", HelpName = "WHO",
        };
        bench.AcceptOnlyFromAmong("terminal", "scripted");
        Option<bool> telemetry = new("--telemetry")
        {
            Description = "Publish over MQTT: to the broker of the rig file, else to one of its own that this machine alone can reach, at port 1883.",
        };
        Option<string?> rehearsal = new("--rehearsal")
        {
            Description = "A rehearsal of these files, written by rehearse --out: the run is held against it.", HelpName = "FILE",
        };
        Command command = new("run", "Runs a procedure: live view, then the figures. Ctrl-C is safe-stop.") 
        {
            procedure, rig, article, logbook, plugins, json, pace, seed, bench, telemetry, rehearsal,
        };
        command.SetAction(parsed => RunOnce.Run(new RunRequest(
            parsed.GetValue(procedure), parsed.GetValue(rig), parsed.GetValue(article), parsed.GetValue(logbook), parsed.GetValue(plugins),
            parsed.GetValue(json), PaceOf(parsed.GetValue(pace)), parsed.GetValue(seed), parsed.GetValue(bench), parsed.GetValue(telemetry),
            parsed.GetValue(rehearsal))));
        return command;
    }

    private static Pace PaceOf(string? text) => text is null ? Pace.Real : Pace.Parse(text)
        ?? throw new CliException(ExitCode.BadInput, $"--pace {text} is no pace; write real, max or a factor from 0.01 to 1000");
}
