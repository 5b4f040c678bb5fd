using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Cli.Rehearsals;
using RigControl.Rehearsal;

namespace RigControl.Cli.Commands;

/// <summary><c>rehearse</c>: what the run will be like, before anything turns.</summary>
internal static class RehearseCommand
{
    public static Command Build()
    {
        Argument<string?> procedure = new("PROCEDURE") { Description = "Procedure file. Default: the enclosed spin-up, on the simulated rig only.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> rig = CommonOptions.Rig();
        Option<string?> article = CommonOptions.Article();
        Option<string?> plugins = CommonOptions.Plugins();
        Option<int> samples = new("--samples")
        {
            Description = "Benches tried that may be the real one, 1 to 100000.", HelpName = "N", DefaultValueFactory = _ => Rehearser.UsualSamples,
        };
        Option<ulong> seed = new("--seed") { Description = "Seed of everything random.", HelpName = "N", DefaultValueFactory = _ => 1 };
        Option<string?> output = new("--out") { Description = "Also writes the rehearsal to a file, for run --rehearsal.", HelpName = "FILE" };
        Option<bool> json = CommonOptions.Json();
        Command command = new("rehearse", "Predicts a run from the models, and refuses what the enclosure or a limit forbids. Nothing turns.")
        {
            procedure, rig, article, plugins, samples, seed, output, json,
        };
        command.SetAction(parsed => RehearseOnce.Run(new RehearsalRequest(
            parsed.GetValue(procedure), parsed.GetValue(rig), parsed.GetValue(article), parsed.GetValue(plugins),
            parsed.GetValue(samples), parsed.GetValue(seed), parsed.GetValue(output), parsed.GetValue(json))));
        return command;
    }
}
