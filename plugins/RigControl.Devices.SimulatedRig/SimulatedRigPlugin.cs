using RigControl.Contracts;
using RigControl.Model.Signals;

namespace RigControl.Devices.SimulatedRig;

/// <summary>Makes simulated rigs.</summary>
public sealed class SimulatedRigPlugin : DevicePlugin<SimulatedRigOptions>
{
    public override string Kind => "simulated-rig";

    public override string Meaning => "A whole rig on the modelled bench: nothing real behind it, the same seed gives the same run.";

    protected override IDevice Open(SimulatedRigOptions options, DeviceContext context) => new SimulatedRigDevice(options, context);

    protected override IReadOnlyList<ChannelDeclaration> Foresee(SimulatedRigOptions options, TimeSpan scanPeriod) => SimulatedChannels.Declare(scanPeriod);
}
