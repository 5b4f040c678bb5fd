using RigControl.Cli.Terminal;
using RigControl.Model.Procedures;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Tests.Terminal;

/// <summary>Keys that answer, keys that write a note, and keys that stop whatever is asked.</summary>
public class AnswerKeysTests
{
    private static readonly Question Mass = new("mass", "mass on the scale", "g", 0, 500, 0.5, []);
    private static readonly Question Trial = new("rights-itself", "rights itself", "", 0, 1, 1, Question.Trial);

    private readonly AnswerKeys _keys = new();

    [Fact]
    public void A_note_has_blanks_and_can_be_mended_before_it_is_kept()
    {
        _keys.Question = Trial;
        Assert.Equal((true, null), Type("nat the  thirt\b\bird go"));
        Assert.Equal("note: at the  thiird go_ | ENTER keeps it | ESC stops", _keys.Prompt);
        Assert.True(_keys.Take('\r', out double? answer, out string? note));
        Assert.Equal((null, "at the  thiird go"), (answer, note));
        Assert.Equal("rights itself | 1 passed | 2 failed | n note", _keys.Prompt);
    }

    [Fact]
    public void Escape_stops_even_within_a_note_and_a_blank_stops_outside_one()
    {
        _keys.Question = Trial;
        Assert.False(_keys.Take(' ', out _, out _));
        _keys.Take('n', out _, out _);
        Assert.True(_keys.Take(' ', out _, out _));
        Assert.False(_keys.Take('\u001b', out _, out _));
    }

    [Fact]
    public void A_digit_within_a_note_is_no_answer()
    {
        _keys.Question = Trial;
        Assert.Equal((true, null), Type("n2 of 3"));
        _keys.Take('\n', out _, out string? note);
        Assert.Equal("2 of 3", note);
        Assert.Equal((true, 1.0), Type("2"));
    }

    [Fact]
    public void Letters_of_a_note_whose_question_has_gone_never_become_acts_and_a_blank_stops_again()
    {
        _keys.Question = Mass;
        Type("nhalf");
        _keys.Question = null;
        Assert.All("ras", letter => Assert.True(_keys.Take(letter, out _, out _)));
        Assert.False(_keys.Take(' ', out _, out _));
        Assert.Equal("note: halfras_ | ENTER keeps it | SPACE and ESC stop", _keys.Prompt);
        Assert.True(_keys.Take('\r', out _, out string? note));
        Assert.Equal("halfras", note);
        Assert.Equal("", _keys.Prompt);
        Assert.False(_keys.Take('s', out _, out _));
    }

    [Fact]
    public void A_half_typed_number_goes_with_its_question()
    {
        _keys.Question = Mass;
        Type("18");
        _keys.Question = null;
        _keys.Question = Mass;
        Assert.Equal("mass on the scale, in g: _ | ENTER takes it | n note", _keys.Prompt);
    }

    [Fact]
    public void No_note_is_longer_than_the_record_takes()
    {
        _keys.Question = Mass;
        Type("n" + new string('x', 1000));
        _keys.Take('\r', out _, out string? note);
        Assert.Equal(RunSession.LongestNote, note!.Length);
    }

    private (bool Taken, double? Answer) Type(string keys)
    {
        (bool taken, double? last) = (true, null);
        foreach (char key in keys)
        {
            taken &= _keys.Take(key, out double? answer, out _);
            last = answer;
        }

        return (taken, last);
    }
}
