using CsCheck;
using RigControl.Cli.Asking;

namespace RigControl.Cli.Tests.Asking;

/// <summary>Whoever answers the questions gets a file in order, and is told what is wrong with an answer at once.</summary>
public class InterviewTests
{
    public static TheoryData<int> Kinds { get; } = [.. Enumerable.Range(0, Answers.All.Count)];

    [Theory, MemberData(nameof(Kinds))]
    public void Answers_of_every_kind_make_a_commented_file_that_check_accepts(int kind)
    {
        (string name, string[] given, Action<Interview> script) = Answers.All[kind];
        Answers answers = new(given);
        string text = answers.File(script);
        Assert.Empty(Answers.Check(text));
        Assert.Equal(0, answers.Left);
        Assert.Contains("# ", text, StringComparison.Ordinal);
        Assert.True(text.Split('\n').All(l => l.Length <= 160), name);
    }

    [Theory, MemberData(nameof(Kinds))]
    public void Going_back_at_any_question_and_answering_again_makes_the_same_file(int kind)
    {
        (_, string[] given, Action<Interview> script) = Answers.All[kind];
        string straight = new Answers(given).File(script);
        for (int at = 1; at < given.Length; at++)
        {
            string[] detour = [.. given[..at], Interview.Back, .. given[(at - 1)..]];
            Assert.Equal(straight, new Answers(detour).File(script));
        }
    }

    [Theory, MemberData(nameof(Kinds))]
    public void Answers_that_end_too_early_are_a_sentence_wherever_they_end(int kind)
    {
        (_, string[] given, Action<Interview> script) = Answers.All[kind];
        for (int at = 0; at < given.Length; at++)
        {
            CliException e = Assert.Throws<CliException>(() => new Answers(given[..at]).File(script));
            Assert.Equal(ExitCode.BadInput, e.ExitCode);
            Assert.Contains("Nothing was written", e.Message, StringComparison.Ordinal);
        }
    }

    [Theory, MemberData(nameof(Kinds))]
    public void Nonsense_from_a_pipe_ends_in_a_sentence_and_never_in_a_file_out_of_order(int kind)
    {
        (_, string[] given, Action<Interview> script) = Answers.All[kind];
        Gen.Select(Gen.Int[0, given.Length - 1], Gen.OneOf(Gen.String, Gen.String["0123456789 .%-:{}[]#\"'&*!|>\\\n\tabcrpmsV"])).Sample(
            (at, nonsense) =>
            {
                string[] spoilt = [.. given];
                spoilt[at] = nonsense.Trim();
                try
                {
                    Assert.Empty(Answers.Check(new Answers(spoilt).File(script)));
                }
                catch (CliException e)
                {
                    Assert.Equal(ExitCode.BadInput, e.ExitCode);
                    Assert.EndsWith(".", e.Message, StringComparison.Ordinal);
                }
            },
            iter: 60, seed: "0N0XIzNsQ0O2", print: t => $"question {t.Item1 + 1}: {t.Item2}");
    }

    [Fact]
    public void A_person_is_asked_again_with_what_was_wrong()
    {
        Answers answers = new([.. Answers.Article[..3], "1000", "80 kg", "", .. Answers.Article[3..]], canAskAgain: true);
        Assert.Empty(Answers.Check(answers.File(ArticleQuestions.Ask)));
        Assert.Equal(3, answers.Said.Count);
        Assert.Contains("`1000` has no unit; write `1000 us`", answers.Said[0], StringComparison.Ordinal);
        Assert.Contains("wrong kind", answers.Said[1], StringComparison.Ordinal);
        Assert.Contains("an answer is due", answers.Said[2], StringComparison.Ordinal);
    }

    [Fact]
    public void An_answer_that_contradicts_an_earlier_one_is_told_at_once()
    {
        Answers answers = new(["bench", "one-way", "longer", "2000 us", "1000 us", Interview.Back, "1000 us", "2000 us", "1500 us", .. Answers.MotorOnly[5..]], canAskAgain: true);
        Assert.Throws<CliException>(() => answers.File(ArticleQuestions.Ask));
        Assert.Contains("the minimum pulse is not shorter than the maximum", answers.Said[0], StringComparison.Ordinal);
        Assert.Contains("stops at its minimum", answers.Said[1], StringComparison.Ordinal);
    }

    [Theory, MemberData(nameof(Kinds))]
    public void No_limit_and_nothing_that_a_controller_needs_has_an_answer_that_nobody_gave(int kind)
    {
        (_, string[] given, Action<Interview> script) = Answers.All[kind];
        Answers answers = new(given);
        answers.File(script);
        // How often to look, and when a speed counts as settled: neither holds anything back.
        string[] harmless = ["200 Hz", "1 %", "0.5 s"];
        Assert.All(answers.Asked.Where(q => q.Usual is not null), q => Assert.Contains(q.Usual, harmless));
    }

    [Fact]
    public void A_text_of_any_words_is_read_back_as_it_was_typed()
    {
        Gen.String.Where(s => s.Trim().Length > 0 && s.Trim() != Interview.Back && s.All(c => c >= ' ' && c < '\u007f')).Sample(
            typed =>
            {
                string[] given = [.. Answers.Rules];
                given[6] = typed.Trim();
                string text = new Answers(given).File(RulesQuestions.Ask);
                Assert.Equal(typed.Trim(), Documents.DocumentReader.ReadRules(text, "f").Value!.Limits[0].Source);
            },
            iter: 200, seed: "0N0XIzNsQ0O2");
    }
}
