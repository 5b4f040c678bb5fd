using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;

namespace RigControl.Documents.Procedures;

/// <summary>Reads what a person is asked: a reading with its range and resolution, or a choice.</summary>
internal static class QuestionReader
{
    // One line of a usual screen, with room for the answer.
    private const int LongestText = 120;

    /// <summary>A reading, or a choice where the step has `choices`.</summary>
    public static Question? Ask(Fields fields)
    {
        (string Name, string Text)? asked = Asked(fields);
        Question? question = fields.Has("choices") ? Choice(fields) : Reading(fields);
        return asked is var (name, text) && question is not null ? question with { Name = name, Text = text } : null;
    }

    /// <summary>Passed or failed.</summary>
    public static Question? Trial(Fields fields) =>
        Asked(fields) is var (name, text) ? Of(Question.Trial) with { Name = name, Text = text } : null;

    private static (string Name, string Text)? Asked(Fields fields)
    {
        string? name = fields.Name("name");
        Node? node = fields.Required("question", "what the person is to read or to judge");
        string? text = WordFields.TextOf(node, "a sentence", fields.Problems);
        if (text?.Length > LongestText)
            fields.Problems.Add(node!.Place, $"the question has {text.Length} characters", $"keep at most {LongestText}, so that it fits on a line");
        return name is null || text is null ? null : (name, text);
    }

    private static Question? Choice(Fields fields)
    {
        IReadOnlyList<string> choices = fields.Names("choices", Question.MostChoices);
        if (choices.Count < 2)
            fields.Problems.Add(fields.PlaceOf("choices"), "there is nothing to choose", "write two choices or more");
        return choices.Count < 2 ? null : Of(choices);
    }

    // The unit that the resolution is written in is the one the instrument shows, so the answer is given in it too.
    private static Question? Reading(Fields fields)
    {
        if (QuantityFields.Written(
            fields.Required("resolution", "the smallest difference that the instrument shows, or `choices:` and a list"), Units.Symbols, "g", fields.Problems) is not { } resolution)
        {
            // Known keys all the same: only without the unit they cannot be read.
            _ = (fields.Optional("lowest"), fields.Optional("highest"));
            return null;
        }

        if (resolution.Value <= 0)
            fields.Problems.Add(fields.PlaceOf("resolution"), "an instrument without steps does not exist", "write a value above 0");
        Bounds any = new(resolution.Unit, double.NegativeInfinity, double.PositiveInfinity);
        double? lowest = fields.Quantity("lowest", any), highest = fields.Quantity("highest", any);
        if (lowest >= highest)
            fields.Problems.Add(fields.PlaceOf("highest"), "no reading lies in this range", "write a `highest` above `lowest`");
        return lowest < highest ? new("", "", resolution.Unit, lowest.Value, highest.Value, resolution.Value, []) : null;
    }

    private static Question Of(IReadOnlyList<string> choices) => new("", "", "", 0, choices.Count - 1, 1, choices);
}
