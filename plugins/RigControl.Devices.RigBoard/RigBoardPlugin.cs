using RigControl.Contracts;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Readings;
using RigControl.Devices.RigBoard.Searching;
using RigControl.Devices.RigBoard.Serial;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard;

/// <summary>Makes rig boards.</summary>
public sealed class RigBoardPlugin : DevicePlugin<RigBoardOptions>, IFindable
{
    public override string Kind => "rig-board";

    public override string Meaning => "The rig board on a serial line: it measures, drives the output and stops by itself.";

    protected override IDevice Open(RigBoardOptions options, DeviceContext context)
    {
        BoardConfiguration configuration = ConfigurationOfRig.Build(options, context.Article);
        ConfigurationOfRig.RequireScanRate(context.ScanPeriod);
        return RigBoardDevice.Open(SerialLine.Open(options.Port), options, configuration, context);
    }

    protected override IReadOnlyList<ChannelDeclaration> Foresee(RigBoardOptions options, TimeSpan scanPeriod) => BoardChannels.Declare(options);

    public IReadOnlyList<string> WhenNothing => BoardSearch.WhenNothing;

    public IReadOnlyList<Finding> Find(IReadOnlyList<string> places) =>
        [.. (places.Count > 0 ? places : PortList.Likely()).Select(p => BoardSearch.At(p, SerialLine.Open, TimeProvider.System))];
}
