using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>
/// Feeds a recorded run through fold and scan again. The recording is the test: every scan must give the same state, outputs,
/// demands and receipts, bit for bit.
/// </summary>
public sealed class Replay
{
    private readonly Configuration _configuration;

    // Null where the interlocks are asked anew.
    private readonly RecordedDemands? _demands;
    private readonly Command[] _commands = new Command[Capacity.Commands];
    private KernelState _state;
    private FoldState _fold;
    private InputImage _image;
    private ScanRecord _again;

    private Replay(Configuration configuration, RecordedDemands? demands = null) => (_configuration, _demands) = (configuration, demands);

    /// <summary>The scan that was made again last, with everything of its demands.</summary>
    public ref readonly ScanRecord Again => ref _again;

    /// <summary>Number of scans that came out the same.</summary>
    public long ScansEqual { get; private set; }

    /// <summary>Prepares the replay of a run from its documents and recorded channels, with the plugins installed now.</summary>
    /// <exception cref="AssemblyException">The interlocks cannot be made again.</exception>
    public static Replay Of(RigDocuments documents, IReadOnlyList<Channel> channels, PluginCatalog catalog)
    {
        InterlockBinder binder = new(catalog, documents.Article, channels, documents.Rehearsed);
        IReadOnlyList<BoundInterlock> interlocks = binder.BindAll(documents.Rig.Interlocks);
        if (binder.Reasons.Count > 0)
            throw new AssemblyException(binder.Reasons, isDevice: false);
        return new Replay(ConfigurationCompiler.Compile(documents.Rig, documents.Article, ProcedureOf(documents, channels), channels, interlocks, binder.Lower(documents.Rig)));
    }

    /// <summary>
    /// Prepares the replay of a run whose interlocks are other ones now: each asks for what it was recorded to ask for, so that the
    /// sequence alone is made again. What interlocks remember is not, and so the hash of the state is not compared.
    /// </summary>
    public static Replay OfRecordedDemands(RigDocuments documents, IReadOnlyList<Channel> channels, PluginCatalog catalog)
    {
        RecordedDemands demands = new();
        // What lets a latch go is the plugin's to say, and so is most often the operator.
        BoundInterlock[] interlocks = [.. documents.Rig.Interlocks.Select((d, place) => new BoundInterlock(
            d.Id, new RecordedInterlock(place, demands), d.Scope, d.Reset ?? catalog.Interlocks.GetValueOrDefault(d.Plugin)?.Reset ?? ResetPolicy.Operator,
            d.Plugin == InterlockBinder.AsksForProof))];
        // What one with a lower limit asked for was recorded in its place.
        IInterlock Lowered(LoweredLimit limit) => interlocks.First(i => i.Id == limit.Interlock).Interlock;
        return new Replay(ConfigurationCompiler.Compile(documents.Rig, documents.Article, ProcedureOf(documents, channels), channels, interlocks, Lowered), demands);
    }

    private static Procedure ProcedureOf(RigDocuments documents, IReadOnlyList<Channel> channels) => VerificationPlan.Of(documents.ProcedureText) is { } plan
        ? VerificationProcedure.For(documents.Rig, documents.Article, channels, plan)
        : documents.Procedure;

    /// <summary>What an interlock asked for in the scan that was made again last, as a sentence.</summary>
    /// <param name="interlock">Place among the demands.</param>
    public string Explain(int interlock) => _configuration.InterlockAt(interlock).Interlock.Explain(_again.Demands[interlock]);

    /// <summary>Takes one sample that the recorded scan had folded.</summary>
    public void Take(in Sample sample) => Fold.Add(_configuration.ChannelList, ref _fold, sample);

    /// <summary>Scans again and compares. Returns what differs, or null.</summary>
    public string? Next(in ScanRecord recorded)
    {
        Fold.Close(_configuration.ChannelList, ref _fold, recorded.Now, ref _image);
        for (int i = 0; i < recorded.ReceiptCount; i++)
            _commands[i] = new Command(recorded.Receipts[i].Command, recorded.Receipts[i].Kind, recorded.Receipts[i].Source, recorded.Receipts[i].Value);
        _demands?.Take(recorded.Demands);
        ScanInput input = new(recorded.Now, _image, _commands.AsSpan(0, recorded.ReceiptCount));
        ScanKernel.Scan(_configuration, ref _state, input, ref _again);
        string? difference = Difference(recorded, _again);
        ScansEqual += difference is null ? 1 : 0;
        return difference;
    }

    /// <summary>
    /// Scans again with something changed, and tells where what the rig is told parts from what it was told. Afterwards the
    /// recorded inputs are answers to outputs that were never given, so a replay ends there.
    /// </summary>
    public string? NextChanged(in ScanRecord recorded)
    {
        Next(recorded);
        ref readonly ScanRecord now = ref _again;
        if (recorded.State == now.State && recorded.Step == now.Step && recorded.Repeat == now.Repeat && SameOutputs(recorded.Outputs, now.Outputs))
            return null;
        string told = $"the run was in {Words.Of(recorded.State)} and would have been in {Words.Of(now.State)}";
        if (recorded.State == now.State)
            told = $"in {Words.Of(now.State)}, other outputs or another step would have come";
        for (int i = 0; i < now.InterlockCount; i++)
        {
            if ((now.NewlyLatched & (1u << i)) != 0)
                told += System.FormattableString.Invariant($"; {_configuration.InterlockAt(i).Id} would have tripped at {now.Demands[i].Value:G6} against {now.Demands[i].Limit:G6}");
        }

        return told;
    }

    private string? Difference(in ScanRecord was, in ScanRecord now)
    {
        if (was.State != now.State || was.Phase != now.Phase)
            return $"the state was {Words.Of(was.State)} and is now {Words.Of(now.State)}";
        if (was.Step != now.Step || was.Repeat != now.Repeat)
            return $"step {was.Step + 1} of repeat {was.Repeat} is now step {now.Step + 1} of repeat {now.Repeat}";
        if (!SameOutputs(was.Outputs, now.Outputs))
            return $"the throttle was {was.Outputs.Throttle * 100:R} % and is now {now.Outputs.Throttle * 100:R} %, or the second or a switched output differs";
        for (int i = 0; i < was.InterlockCount; i++)
        {
            if (was.Demands[i].Action != now.Demands[i].Action || was.Demands[i].Reason != now.Demands[i].Reason)
                return $"the interlock {_configuration.InterlockAt(i).Id} asked for {was.Demands[i].Action} and now asks for {now.Demands[i].Action}";
        }

        for (int i = 0; i < was.ReceiptCount; i++)
        {
            if (was.Receipts[i] != now.Receipts[i])
                return $"the command {Words.Of(was.Receipts[i].Kind)} was answered {Words.Of(was.Receipts[i].Refusal)} and is now answered {Words.Of(now.Receipts[i].Refusal)}";
        }

        if (was.Latched != now.Latched || was.Causes != now.Causes)
            return "other causes are latched";
        return was.StateHash == now.StateHash || _demands is not null ? null : "the kernel's state differs inside";
    }

    private static bool SameOutputs(in OutputImage a, in OutputImage b) =>
        BitConverter.DoubleToInt64Bits(a.Throttle) == BitConverter.DoubleToInt64Bits(b.Throttle)
        && BitConverter.DoubleToInt64Bits(a.Pulse) == BitConverter.DoubleToInt64Bits(b.Pulse)
        && BitConverter.DoubleToInt64Bits(a.SecondThrottle) == BitConverter.DoubleToInt64Bits(b.SecondThrottle)
        && BitConverter.DoubleToInt64Bits(a.SecondPulse) == BitConverter.DoubleToInt64Bits(b.SecondPulse)
        && a.Switches == b.Switches;
}
