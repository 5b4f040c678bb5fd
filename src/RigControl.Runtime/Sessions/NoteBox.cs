using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>
/// Words that a person adds to the record of a run. They go past the kernel: a note changes nothing, and is not needed to run the
/// scans again. Any thread may put one in; the scan's thread takes them out.
/// </summary>
internal sealed class NoteBox(IReadOnlyList<Step> steps)
{
    private readonly Lock _lock = new();
    private readonly Queue<string> _waiting = new();
    private volatile bool _any;

    /// <summary>Puts a note in. False where it is empty or too many wait.</summary>
    public bool Post(string text)
    {
        string kept = new([.. text.Where(c => !char.IsControl(c)).Take(RunSession.LongestNote)]);
        lock (_lock)
        {
            if (kept.Trim().Length == 0 || _waiting.Count == RunSession.MostNotes)
                return false;
            _waiting.Enqueue(kept.Trim());
            _any = true;
            return true;
        }
    }

    /// <summary>Tells what waits, with the step and the question that it belongs to.</summary>
    /// <param name="latest">Where the run stands.</param>
    public void Tell(in (TimeSpan Now, long Scan, int Step, int Repeat) latest, ScanCycle cycle)
    {
        if (!_any)
            return;
        lock (_lock)
        {
            string question = steps[latest.Step].Question?.Name ?? "";
            while (_waiting.TryDequeue(out string? text))
            {
                Dictionary<string, object> data = new() { ["step"] = latest.Step + 1, ["repeat"] = latest.Repeat, ["text"] = text };
                string about = question.Length > 0 ? $"note on {question}: " : "note: ";
                cycle.Note(new RigEvent(latest.Now, latest.Scan, EventNames.Note, question, about + text, data));
            }

            _any = false;
        }
    }
}
