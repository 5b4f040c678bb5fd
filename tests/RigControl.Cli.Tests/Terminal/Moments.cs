using RigControl.Cli.Loading;
using RigControl.Cli.Terminal;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Tests.Terminal;

/// <summary>The ready spin-up on the simulated rig, looked at on every kind of terminal in every scan that is asked for.</summary>
internal sealed class Moments : IOperator
{
    private readonly ScriptedOperator _acting;
    private readonly AssembledRig _rig;
    private readonly LiveScreen _screen;
    private readonly Dictionary<string, string[]> _shown = [];
    private readonly (int Width, int Height) _size;
    private readonly Action<ScanRecord, CommandInbox>? _meddle;
    private RunSession? _session;

    private Moments(AssembledRig rig, (int Width, int Height) size, Action<ScanRecord, CommandInbox>? meddle) =>
        (_rig, _acting, _screen, _size, _meddle) = (rig, new ScriptedOperator(rig.Documents.Procedure), new LiveScreen(rig), size, meddle);

    public string Name => "scripted";

    public bool HasGivenUp => _acting.HasGivenUp;

    private Notices Notices { get; } = new();

    /// <summary>The last picture of each state, by its name; READY and WARNING by theirs.</summary>
    /// <param name="change">What is changed in the simulated rig's file: text and replacement.</param>
    /// <param name="meddle">Acts besides the scripted ones.</param>
    /// <param name="procedure">Text of another procedure than the ready spin-up.</param>
    public static IReadOnlyDictionary<string, string[]> Of(
        (int Width, int Height) size, (string Find, string Replace)? change = null, Action<ScanRecord, CommandInbox>? meddle = null, string? procedure = null)
    {
        string rigText = File.ReadAllText(Installed.Sample("simulated.rig.yaml"));
        if (change is { } wanted)
            Assert.Contains(wanted.Find, rigText, StringComparison.Ordinal);
        DocumentLoader loader = new(Installed.Plugins);
        string rigFile = Path.GetTempFileName();
        File.WriteAllText(rigFile, change is { } c ? rigText.Replace(c.Find, c.Replace, StringComparison.Ordinal) : rigText);
        string procedureFile = Path.GetTempFileName();
        File.WriteAllText(procedureFile, procedure ?? File.ReadAllText(Installed.Sample("enclosed-spin-up.yaml")));
        RigDocuments documents = loader.FromFiles(rigFile, Installed.Sample("disc-180.article.yaml"), procedureFile);
        File.Delete(rigFile);
        File.Delete(procedureFile);
        using AssembledRig rig = new RigAssembler(Installed.Plugins, TimeProvider.System).Assemble(documents, 1);
        rig.ConfirmFailsafe();
        Moments moments = new(rig, size, meddle);
        using NoRecord nothing = new();
        using RunSession session = new(rig, nothing, moments, Pace.Max, [], moments.Notices.Hear);
        moments._session = session;
        session.Run();
        return moments._shown;
    }

    public void See(in ScanRecord record, CommandInbox inbox)
    {
        _acting.See(record, inbox);
        _meddle?.Invoke(record, inbox);
        (ScanRecord seen, InputImage image) = _session!.Watch.Latest();
        string name = seen.Phase switch
        {
            Model.Rig.ArmingPhase.AwaitingStart => "Ready",
            Model.Rig.ArmingPhase.Warning => "Warning",
            _ => seen.AwaitsLook ? "Look" : seen.State.ToString(),
        };
        // A picture in ten scans: a state that lasts is seen well within. The scan that proves standstill is the last in safe-stop.
        bool proven = seen is { State: Model.Rig.RigState.SafeStop, AtStandstill: true };
        if (seen.Scan % 10 == 0 || proven || !_shown.ContainsKey(name))
            _shown[name] = [.. _screen.Of(seen, image, Notices, "", _size, '#').Select(l => l.Text + l.Beside)];
    }
}
