using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;

namespace RigControl.Runtime.Failsafe;

/// <summary>What a verification did not make happen, and why: a proof says nothing of it.</summary>
/// <param name="Name">Of the provocation that was left out, or of what was not provoked.</param>
/// <param name="Why">A sentence.</param>
public sealed record Unprovoked(string Name, string Why)
{
    // Fact by which a device says that it holds limits of its own.
    private const string Limits = "limits";

    /// <summary>Of a whole verification of a rig as it is open; told by what its procedure holds, so that no step is left out unsaid.</summary>
    public static IReadOnlyList<Unprovoked> Of(AssembledRig rig)
    {
        RigDocuments documents = rig.Documents;
        Provocation[] made = [.. documents.Procedure.Steps.Select(s => s.Provocation).OfType<Provocation>()];
        List<Unprovoked> left = [];
        if (made.All(p => p.Name != TurningStage.PulsesCease))
            left.Add(new(TurningStage.PulsesCease, WhyNotCeased(documents.Article.Controller.WhenPulsesCease)));
        left.AddRange(rig.DeviceIdentities.Where(d => d.Facts.ContainsKey(Limits)).Select(OwnLimits));
        if (made.All(p => p.Name != RadioStage.Lost) && rig.Channels.All(c => c.Declaration.Name != ChannelNames.ReceiverPulse))
            left.Add(new(RadioStage.Lost, $"no device supplies {ChannelNames.ReceiverPulse}, so that nothing was seen of a radio that drives; where one does, try it by hand, with the rotor off"));
        string[] silent = [.. documents.Rig.Interlocks.Select(i => i.Id).Where(id => made.All(p => p.Expected != id))];
        if (silent.Length > 0)
            left.Add(new("interlocks", $"not made to object: {string.Join(", ", silent)}; of the limits of the host a verification lowers over-speed and temperatures alone"));
        return left;
    }

    private static string WhyNotCeased(CeasedPulseBehaviour behaviour) => behaviour switch
    {
        CeasedPulseBehaviour.Stops => "what drives the output cannot leave its pulses out under power; that the controller stops without them rests on the article's when-pulses-cease: try it with the rotor off, by pulling the signal lead",
        CeasedPulseBehaviour.RunsOn => "by the article's when-pulses-cease the controller runs on without pulses; what stops it then is the power cut",
        _ => "the article's when-pulses-cease does not say what the controller does without pulses, so that it counts as one that runs on; what stops it then is the power cut",
    };

    private static Unprovoked OwnLimits(DeviceIdentity device) => new(
        $"{device.Id}-{Limits}",
        $"the limits at which {device.Id} stops by itself stood as they were loaded, and none was lowered: what was seen to act at over-speed is the host's interlock; to see the device's own, write it lower than the interlock's for one run with the rotor off");
}
