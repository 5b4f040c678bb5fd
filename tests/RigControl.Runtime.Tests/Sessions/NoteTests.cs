using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Sessions;

/// <summary>Words that a person adds stand in the record beside what they are about, and change nothing else.</summary>
public class NoteTests
{
    private static readonly Question Trial = new("rights-itself", "rights itself", "", 0, 1, 1, Question.Trial);

    private static TestRig Tried => new() { Steps = [new Step { Kind = StepKind.Trial, Question = Trial, Timeout = TimeSpan.FromMinutes(1) }] };

    [Fact]
    public void A_note_stands_in_the_record_with_the_question_that_it_is_about()
    {
        MemoryRecorder record = Noted("slow at first");
        RigEvent note = record.The(EventNames.Note);
        Assert.Equal(("rights-itself", "note on rights-itself: slow at first", "slow at first"), (note.Subject, note.Text, note.Data["text"]));
        Assert.Equal((1, 1), (note.Data["step"], note.Data["repeat"]));
    }

    [Fact]
    public void A_note_changes_no_scan() =>
        Assert.Equal(Noted().Scans.Select(s => s.StateHash), Noted("anything at all").Scans.Select(s => s.StateHash));

    [Fact]
    public void Only_printable_words_are_kept_and_no_more_than_fit()
    {
        Assert.DoesNotContain(Noted(" \t\u001b ").Events, e => e.Name == EventNames.Note);
        Assert.Equal("[2Jab", Noted("\u001b[2J\na\u0007b").The(EventNames.Note).Data["text"]);
        Assert.Equal(RunSession.LongestNote, ((string)Noted(new string('x', 5000)).The(EventNames.Note).Data["text"]).Length);
        Assert.Equal(RunSession.MostNotes, Noted([.. Enumerable.Repeat("one", 100)]).Events.Count(e => e.Name == EventNames.Note));
    }

    private static MemoryRecorder Noted(params string[] notes)
    {
        using AssembledRig rig = Tried.Assemble();
        MemoryRecorder record = new();
        RunSession? running = null;
        NotingOperator noting = new(new ScriptedOperator(rig.Documents.Procedure), () => Array.ForEach(notes, n => running!.AddNote(n)));
        Run.Of(rig, record, noting, before: s => running = s);
        return record;
    }

    /// <summary>Notes once, when the trial is being waited for.</summary>
    private sealed class NotingOperator(ScriptedOperator script, Action note) : IOperator
    {
        private bool _noted;

        public string Name => "noting";

        public void See(in ScanRecord record, CommandInbox inbox)
        {
            if (record.State == RigState.Idle && !_noted)
            {
                _noted = true;
                note();
                return;
            }

            script.See(record, inbox);
        }

        public bool HasGivenUp => script.HasGivenUp;
    }
}
