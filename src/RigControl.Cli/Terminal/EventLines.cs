using System.Globalization;
using RigControl.Model.Records;

namespace RigControl.Cli.Terminal;

/// <summary>Events as plain lines on standard error, for pipes, files and terminals without drawing.</summary>
internal static class EventLines
{
    public static void Print(RigEvent happened) => Console.Error.WriteLine(Of(happened));

    public static string Of(RigEvent happened)
    {
        string what = happened.Name switch
        {
            EventNames.StateEntered => "state",
            EventNames.StepEntered => "step",
            EventNames.Trip => "TRIP",
            EventNames.Refusal => "refused",
            EventNames.OperatorAct => "act",
            _ => happened.Name,
        };
        return string.Create(CultureInfo.InvariantCulture, $"{happened.At.TotalSeconds,9:0.000} s  {what,-8} {happened.Text}");
    }
}
