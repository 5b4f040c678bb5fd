using RigControl.Contracts;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Serial;

namespace RigControl.Devices.RigBoard;

/// <summary>Makes rig boards.</summary>
public sealed class RigBoardPlugin : DevicePlugin<RigBoardOptions>
{
    public override string Kind => "rig-board";

    public override string Meaning => "The rig board on a serial line: it measures, drives the output and stops by itself.";

    protected override IDevice Open(RigBoardOptions options, DeviceContext context)
    {
        BoardConfiguration configuration = ConfigurationOfRig.Build(options, context.Article);
        ConfigurationOfRig.RequireScanRate(context.ScanPeriod);
        return RigBoardDevice.Open(SerialLine.Open(options.Port), options, configuration, context);
    }
}
