using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Runs;

/// <summary>How the runs in the logbook left the rotor of a rig: a run that was broken off may have left it turning.</summary>
internal static class RotorBefore
{
    /// <summary>Takes the rotor as at rest where no run says otherwise. Else returns the sentence that opens the record.</summary>
    /// <param name="rig">Open; its run is not yet begun in the logbook.</param>
    public static IReadOnlyList<RigEvent> Follow(AssembledRig rig, LogbookFile book)
    {
        if (rig.Simulated || LeftTurning(book, rig.Documents.RigText.Name) is not { } run)
        {
            rig.TakeAsAtRest();
            return [];
        }

        string text = $"run {run} ended before its rotor was proven to stand; the longest coast-down of {rig.Configuration.LongestCoastDown.TotalSeconds:0.#} s has to pass, and a reading of 0 proves nothing until then";
        Console.Error.WriteLine(text);
        return [new RigEvent(TimeSpan.Zero, 0, EventNames.DeviceNote, "host", text, new Dictionary<string, object> { ["run"] = run })];
    }

    /// <summary>The latest run that armed the rig and did not end at rest; null where none did since one that ended so.</summary>
    internal static string? LeftTurning(LogbookFile book, string rig)
    {
        foreach (RunSummary run in book.RunsAsRecorded().Reverse().Where(r => r.Rig == rig))
        {
            IReadOnlyList<RigEvent> events = [.. book.Events(run.Run)];
            if (events.Any(e => e.Name == EventNames.LeftAtRest))
                return null;
            if (events.Any(e => e.Name == EventNames.StateEntered && e.Subject == nameof(RigState.Arming)))
                return run.Run;
        }

        return null;
    }
}
