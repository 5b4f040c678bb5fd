using RigControl.Model.Procedures;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>Whether a rig can open the gate for its receiver at all: somebody must see what the receiver says, and there must be something to drive.</summary>
internal static class GateCheck
{
    public static void Check(IReadOnlyList<Step> steps, IReadOnlyList<Channel> channels, List<string> reasons)
    {
        bool receives = channels.Any(c => c.Name == ChannelNames.ReceiverPulse && c.Declaration.Unit == "us");
        for (int i = 0; i < steps.Count; i++)
        {
            if (steps[i].Kind != StepKind.Gate && steps[i].Provocation?.Manner != ProvocationManner.ThroughGate)
                continue;
            if (!receives)
                reasons.Add($"step {i + 1} lets the receiver's pulse through, but no device supplies {ChannelNames.ReceiverPulse} in us; use a board that reads the receiver");
        }
    }
}
