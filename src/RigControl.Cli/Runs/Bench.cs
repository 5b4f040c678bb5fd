using System.Runtime.InteropServices;
using RigControl.Cli.Terminal;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;
using RigControl.Telemetry.Publishing;

namespace RigControl.Cli.Runs;

/// <summary>Who acts, what they see, and what the operating system's signals mean while a run is on.</summary>
internal sealed class Bench(IOperator acting)
{
    public IOperator Operator { get; } = acting;

    /// <summary>The operator asked for, or the one that fits: scripted at another pace than real, a person otherwise.</summary>
    /// <exception cref="CliException">When the choice cannot be had on this rig or terminal.</exception>
    public static Bench Choose(RunRequest request, AssembledRig rig)
    {
        bool scripted = request.Operator == "scripted" || (request.Operator is null && request.Pace.Kind != PaceKind.Real);
        if (scripted && !rig.Simulated)
            throw new CliException(ExitCode.BadInput, "a scripted operator is for simulated rigs only; leave --operator out and act at the terminal");
        if (request.Pace.Kind != PaceKind.Real && !rig.CanRunInLockStep)
            throw new CliException(ExitCode.BadInput, "only a simulated rig has another pace than real; leave --pace out");
        if (request.Seed is not null && !rig.Simulated)
            throw new CliException(ExitCode.BadInput, "only a simulated rig has a seed; leave --seed out");
        if (scripted)
            return new Bench(rig.Configuration.Ceiling is null ? new ScriptedOperator(rig.Documents.Procedure) : new ScriptedVerifier(rig));
        return Console.IsInputRedirected
            ? throw new CliException(ExitCode.Refused, "refused: no operator: standard input is no terminal; run this in a terminal, or with --operator scripted on a simulated rig")
            : new Bench(new TerminalOperator(rig.Documents.Procedure));
    }

    /// <param name="before">What was found of the rotor from before this run.</param>
    /// <param name="proof">What stands for the failsafe of this rig.</param>
    /// <param name="telemetry">Where the run is published, or null.</param>
    public RunResult Run(AssembledRig rig, IRunRecorder recorder, RunRequest request, IReadOnlyList<RigEvent> before, ProofVerdict proof, RigTelemetry? telemetry)
    {
        List<RigEvent> opening = [.. before];
        if (FailsafeQuestion.Answer(rig, Operator, proof) is { } confirmed)
        {
            rig.ConfirmFailsafe();
            opening.Add(confirmed);
        }

        return Run(rig, recorder, request, opening, telemetry, session => telemetry?.Attach(session.Network));
    }

    /// <summary>Runs a verification; the failsafe is not confirmed by anybody in it.</summary>
    /// <param name="before">What was found of the rotor from before this run.</param>
    public RunResult Verify(AssembledRig rig, IRunRecorder recorder, RunRequest request, IReadOnlyList<RigEvent> before, VerificationWatch watch) =>
        Run(rig, recorder, request, before, watch, _ => { });

    private RunResult Run(AssembledRig rig, IRunRecorder recorder, RunRequest request, IReadOnlyList<RigEvent> opening, IRunSink? sink, Action<RunSession> attach)
    {
        bool live = Operator is TerminalOperator && LiveView.CanDraw;
        Notices notices = new();
        // A person hears at once; what is written where it may be kept is the same as what the logbook has, whatever happens to this process.
        using RunSession session = new(rig, recorder, Operator, request.Pace, opening, live ? notices.Hear : null, sink, live ? null : EventLines.Print)
        {
            OnHung = sentence => EndHung(sentence, live),
        };
        attach(session);
        using SignalStop signals = new(session);
        return live ? RunLive(rig, session, notices) : RunPlainly(session);
    }

    // Whoever hangs in this process can only be got rid of with it.
    private static void EndHung(string sentence, bool live)
    {
        if (live)
            Spectre.Console.AnsiConsole.Cursor.Show(true);
        Console.Error.WriteLine(sentence);
        Console.Error.WriteLine("the run is kept as broken off; runs show last tells what it came to");
        Environment.Exit(ExitCode.SafeStop);
    }

    private RunResult RunLive(AssembledRig rig, RunSession session, Notices notices)
    {
        TerminalOperator person = (TerminalOperator)Operator;
        person.Listen(session);
        using LiveView view = new(rig, session.Watch, notices, () => person.Prompt);
        view.Begin();
        RunResult result = session.Run();
        person.End();
        return result;
    }

    private RunResult RunPlainly(RunSession session)
    {
        (Operator as TerminalOperator)?.Listen(session);
        RunResult result = session.Run();
        (Operator as TerminalOperator)?.End();
        return result;
    }

    /// <summary>Ctrl-C, a closed terminal and a request to end all mean safe-stop; a second one changes nothing.</summary>
    private sealed class SignalStop : IDisposable
    {
        private readonly List<PosixSignalRegistration> _registrations = [];

        public SignalStop(RunSession session)
        {
            foreach (PosixSignal signal in new[] { PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGHUP, PosixSignal.SIGQUIT })
            {
                _registrations.Add(PosixSignalRegistration.Create(signal, context =>
                {
                    context.Cancel = true;
                    session.Stop();
                }));
            }
        }

        public void Dispose() => _registrations.ForEach(r => r.Dispose());
    }
}
