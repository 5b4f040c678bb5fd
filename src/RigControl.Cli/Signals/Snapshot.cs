using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Cli.Signals;

/// <summary>Every input of a rig at one moment, and what each interlock says to it.</summary>
internal sealed record Snapshot(string Rig, bool Simulated, string State, double At, IReadOnlyList<Signal> Channels, IReadOnlyList<Objecting> Interlocks)
{
    public static Snapshot Of(AssembledRig rig, Narrator narrator, in ScanRecord record, in InputImage image)
    {
        List<Signal> channels = [];
        foreach (Channel channel in rig.Channels)
            channels.Add(Signal.Of(channel, rig.DeviceIdentities[channel.Device].Id, image[channel.Index]));
        List<Objecting> interlocks = [];
        for (int i = 0; i < record.InterlockCount; i++)
        {
            Demand demand = record.Demands[i];
            interlocks.Add(new Objecting(rig.Configuration.InterlockAt(i).Id, demand.Action != DemandAction.Proceed, narrator.Explain(i, demand)));
        }

        return new Snapshot(rig.Documents.Rig.Name, rig.Simulated, record.State.ToString(), record.Now.TotalSeconds, channels, interlocks);
    }
}

/// <summary>One input.</summary>
/// <param name="Value">Null while there is none that may be used.</param>
/// <param name="Quality">Good, Uncertain or Bad.</param>
/// <param name="Reason">Why it is Bad, or null.</param>
internal sealed record Signal(string Name, string Device, double? Value, string Unit, string Quality, string? Reason)
{
    public static Signal Of(Channel channel, string device, in ImageEntry entry) => new(
        channel.Name, device, entry.IsUsable && double.IsFinite(entry.Last) ? entry.Last : null, channel.Declaration.Unit,
        entry.Quality.ToString(), entry.IsUsable ? null : Why(entry.Cause));

    private static string Why(BadCause cause) => cause switch
    {
        BadCause.Never => "none yet",
        BadCause.TooOld => "too old",
        BadCause.OutOfRange => "out of range",
        BadCause.Frozen => "frozen",
        _ => "bad",
    };
}

/// <summary>One interlock and what it says.</summary>
internal sealed record Objecting(string Name, bool Objects, string Says);
