using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Cli.Runs;

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
        Option<string?> pace = CommonOptions.Pace();
        Option<ulong?> seed = CommonOptions.Seed();
        Option<string?> bench = CommonOptions.Operator();
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
            parsed.GetValue(json), CommonOptions.PaceOf(parsed.GetValue(pace)), parsed.GetValue(seed), parsed.GetValue(bench), parsed.GetValue(telemetry),
            parsed.GetValue(rehearsal))));
        return command;
    }
}
