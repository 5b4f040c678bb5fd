using System.Runtime.InteropServices;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Signals;

/// <summary>
/// A session that only looks: the real scan on the real devices, with nobody there who could reset it, so that it stays in
/// safe-stop from the first scan to the last.
/// </summary>
internal sealed class Looking : IDisposable
{
    private readonly AssembledRig _rig;
    private readonly Onlooker _onlooker;
    private readonly NoRecord _record = new();
    private readonly RunSession _session;
    private readonly Narrator _narrator;
    private readonly List<PosixSignalRegistration> _registrations = [];

    /// <param name="stay">How long to look; null until somebody leaves.</param>
    public Looking(AssembledRig rig, TimeSpan? stay)
    {
        (_rig, _onlooker, _narrator) = (rig, new Onlooker(stay), new Narrator(rig));
        _session = new RunSession(rig, _record, _onlooker, Pace.Real, [], onEvent: null);
        foreach (PosixSignal signal in new[] { PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGHUP, PosixSignal.SIGQUIT })
        {
            _registrations.Add(PosixSignalRegistration.Create(signal, context =>
            {
                context.Cancel = true;
                Leave();
            }));
        }
    }

    public void Leave() => _onlooker.Leave();

    /// <summary>Looks until it is over, showing what it sees again and again.</summary>
    /// <param name="period">Time between two looks.</param>
    /// <param name="show">Called on this thread.</param>
    /// <returns>The last that was seen; null where there was nothing.</returns>
    /// <exception cref="CliException">A device was lost, exit code 5.</exception>
    public Snapshot? Run(TimeSpan period, Action<Snapshot> show)
    {
        Task<RunResult> session = Task.Run(_session.Run);
        Snapshot? last = null;
        while (!session.Wait(period))
        {
            last = Look() ?? last;
            if (last is not null)
                show(last);
        }

        return session.Result.Note is { } lost ? throw new CliException(ExitCode.DeviceOrStorage, lost) : last;
    }

    public void Dispose()
    {
        _registrations.ForEach(r => r.Dispose());
        _session.Dispose();
        _record.Dispose();
    }

    // What the watch holds is as old as the last look: the first call asks for a new one, the second has it.
    private Snapshot? Look()
    {
        _session.Watch.Latest();
        Thread.Sleep(2 * _rig.Configuration.ScanPeriod);
        (ScanRecord record, InputImage image) = _session.Watch.Latest();
        return record.Scan == 0 ? null : Snapshot.Of(_rig, _narrator, record, image);
    }
}
