using System.Globalization;
using RigControl.Analysis.Answers;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;
using RigControl.Model.Records;

namespace RigControl.Cli.Runs;

/// <summary>The answers of a run as its events hold them.</summary>
internal static class RecordedAnswers
{
    public static IReadOnlyList<Answer> Of(IEnumerable<RigEvent> events, Procedure procedure) =>
        [.. events.Where(e => e.Name == EventNames.Answer).Select(e => One(e, procedure))];

    private static Answer One(RigEvent answered, Procedure procedure)
    {
        double value = Number(answered, "value");
        Question? asked = procedure.Steps[(int)Number(answered, "step") - 1].Question;
        if (asked is { IsChoice: true })
            return asked.Choices.SequenceEqual(Question.Trial)
                ? new Answer(answered.Subject, AnswerKind.Trial, value == 0 ? 1 : 0, "", 0)
                : new Answer(answered.Subject, AnswerKind.Choice, value, "", 0);
        string unit = Convert.ToString(answered.Data["unit"], CultureInfo.InvariantCulture) ?? "";
        string canonical = Units.Canonical(unit) ?? unit;
        bool known = canonical != unit;
        return new Answer(
            answered.Subject, AnswerKind.Reading, known ? Units.Convert(value, unit, canonical) : value, canonical,
            known ? Units.ConvertDifference(Number(answered, "resolution"), unit, canonical) : Number(answered, "resolution"));
    }

    private static double Number(RigEvent answered, string name) => Convert.ToDouble(answered.Data[name], CultureInfo.InvariantCulture);
}
