using System.CommandLine;
using RigControl.Cli;
using RigControl.Cli.Commands;
using RigControl.Cli.Output;
using RigControl.Model.Records;

using Diagnostics diagnostics = new();
Console.SetError(new UnfailingWriter(Console.Error));
RootCommand root = new("Runs scripted procedures on a test rig for small fighting robots, behind interlocks, and keeps the record.")
{
    NewCommand.Build(),
    CheckCommand.Build(),
    SignalsCommand.Build(),
    FailsafeCommand.Build(),
    RunCommand.Build(),
    RehearseCommand.Build(),
    AdoptCommand.Build(),
    RunsCommand.Build(),
    LogbookCommand.Build(),
    ReplayCommand.Build(),
    ReportCommand.Build(),
    PlotCommand.Build(),
    MarkerCommand.Build(),
    PlanCommand.Build(),
    RulesCommand.Build(),
    AnalyzeCommand.Build(),
    ReckonCommand.Build(),
    ForeignCommands.Enter(),
    ForeignCommands.Import(),
    CalibrateCommand.Build(),
    PluginsCommand.Build(),
    BoardCommand.Build(),
    WatchCommand.Build(),
};
ParseResult parsed = root.Parse(args);
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
        Console.Error.WriteLine(error.Message);
    return ExitCode.BadInput;
}

try
{
    return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null });
}
catch (CliException e)
{
    foreach (string line in e.Lines)
        Console.Error.WriteLine(line);
    return e.ExitCode;
}
catch (StorageException e)
{
    Console.Error.WriteLine(e.Message);
    return ExitCode.DeviceOrStorage;
}
catch (Exception e) when (e is IOException or UnauthorizedAccessException)
{
    Console.Error.WriteLine($"the output cannot be written: {e.Message}; make room, or name another place for it");
    return ExitCode.DeviceOrStorage;
}
#pragma warning disable CA1031 // The last resort: a sentence for the person, the rest for the log.
catch (Exception e)
#pragma warning restore CA1031
{
    Console.Error.WriteLine(diagnostics.Report(e));
    return ExitCode.InternalFault;
}
