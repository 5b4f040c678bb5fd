using RigControl.Contracts;
using RigControl.Devices.SimulatedRig;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Campaigns;

/// <summary>Places of the bench's channels, asked of the bench itself.</summary>
internal static class BenchChannels
{
    private static readonly List<string> Names = Ask();

    public static readonly int Speed = Names.IndexOf(ChannelNames.RotorSpeed);
    public static readonly int Lid = Names.IndexOf(ChannelNames.EnclosureLid);
    public static readonly int LidOpen = Names.IndexOf(ChannelNames.EnclosureLidOpen);
    public static readonly int Bolt = Names.IndexOf(ChannelNames.EnclosureLock);
    public static readonly int Stop = Names.IndexOf(ChannelNames.StopClear);
    public static readonly int Receiver = Names.IndexOf(ChannelNames.ReceiverPulse);
    public static readonly int Throttle = Names.IndexOf(ChannelNames.OutputThrottle);
    public static readonly int Pulse = Names.IndexOf(ChannelNames.OutputPulse);
    public static readonly int Power = Names.IndexOf(ChannelNames.OutputPower);
    public static readonly int MotorTemperature = Names.IndexOf(ChannelNames.MotorTemperature);

    public static int Count => Names.Count;

    private static List<string> Ask()
    {
        DeviceContext context = new() { Id = "bench", Article = CampaignRig.Article, ScanPeriod = CampaignRig.Period, Seed = 0, Time = TimeProvider.System, Epoch = 0 };
        using IDevice bench = ((IDevicePlugin)new SimulatedRigPlugin()).Open(new SimulatedRigOptions(), context);
        return [.. bench.Channels.Select(c => c.Name)];
    }
}
