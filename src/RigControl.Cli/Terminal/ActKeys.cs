using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Cli.Terminal;

/// <summary>The keys that do something now, the next act first. Every other key is answered with the reason why not.</summary>
internal static class ActKeys
{
    private const string Stop = "SPACE stop";

    public static string Of(in ScanRecord record, Configuration configuration) => record.State switch
    {
        RigState.SafeStop or RigState.Idle when record.AwaitsLook => $"o it stands, I looked | m marker | {Stop} | q quit",
        RigState.SafeStop when record.AtStandstill => "r reset | m marker | q quit",
        RigState.SafeStop => "wait for the proof of standstill | m marker | q quit",
        RigState.Idle when record.Finished => $"done | u unlock | l lock | {Stop}",
        RigState.Idle when configuration.StepAt(record.Step).Kind == StepKind.Arm => $"a arm | u unlock | l lock | m marker | {Stop} | q quit",
        RigState.Idle => $"u unlock | l lock | m marker | {Stop} | q quit",
        RigState.Arming when record.Phase == ArmingPhase.AwaitingStart => $"s start | {Stop} | m marker",
        _ => $"{Stop} | m marker",
    };
}
