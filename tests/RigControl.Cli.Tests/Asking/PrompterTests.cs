using RigControl.Cli.Asking;

namespace RigControl.Cli.Tests.Asking;

/// <summary>Questions on plain lines: numbered, with what may be answered, and within 80 columns.</summary>
public class PrompterTests
{
    [Fact]
    public void A_question_shows_its_number_its_words_and_what_nothing_means()
    {
        using StringWriter shown = new();
        PlainPrompter prompter = new(new StringReader("  stops \n"), shown, canAskAgain: true);
        Assert.Equal("stops", prompter.Ask(7, new Question("What then?", "as tried.") { Choices = ["stops", "runs-on"], Usual = "stops" }));
        Assert.Equal(" 7. What then?\n    stops, runs-on: as tried. [nothing: stops]\n  > ", shown.ToString().ReplaceLineEndings("\n"));
    }

    [Fact]
    public void An_ended_input_is_no_answer() => Assert.Null(new PlainPrompter(new StringReader(""), new StringWriter(), canAskAgain: false).Ask(1, new("?", "")));

    [Fact]
    public void No_line_of_any_question_is_wider_than_80_columns()
    {
        foreach ((string name, string[] given, Action<Interview> script) in Answers.All)
        {
            using StringWriter shown = new();
            PlainPrompter prompter = new(new StringReader(string.Join('\n', given)), shown, canAskAgain: false);
            new Interview(prompter, Answers.Check).Run(script);
            Assert.All(shown.ToString().Split('\n'), l => Assert.True(l.Length <= 80, $"{name}: {l}"));
        }
    }
}
