using System.CommandLine;
using RigControl.Analysis.Heat;
using RigControl.Analysis.Inertias;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Loading;
using RigControl.Cli.Reckonings;
using RigControl.Model.Records;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>reckon</c>: figures from what was measured with ruler, scale, watch, camera or ohmmeter.</summary>
internal static class ReckonCommand
{
    public static Command Build() => new("reckon", "Figures from what was measured by hand, each with its uncertainty.") { Inertia(), ReckonPendulum.Build(), Frames(), Winding() };

    private static Command Inertia()
    {
        Option<string[]> add = new("--add") { Description = $"A part, as often as wanted: {PartText.HowToWrite}.", HelpName = "PART", Required = true };
        Option<string[]> less = new("--less") { Description = "A hole, with the mass of the material that is missing; written as a part, as often as wanted.", HelpName = "PART" };
        Option<bool> json = CommonOptions.Json();
        Command command = new("inertia", "A rotor's inertia from its drawing.") { add, less, json };
        command.SetAction(parsed =>
        {
            string[] added = parsed.GetValue(add)!, taken = parsed.GetValue(less) ?? [];
            RotorPart[] parts = [.. added.Select((t, i) => PartText.Read(t, i + 1, takenAway: false)), .. taken.Select((t, i) => PartText.Read(t, added.Length + i + 1, takenAway: true))];
            return Reckoned.Write(parsed.GetValue(json), Reckoned.Of("inertia", "kg.m2", "bodies added and subtracted", () => GeometryInertia.Of(parts)));
        });
        return command;
    }

    private static Command Frames()
    {
        Option<double> turns = new("--turns") { Description = "Whole turns counted, above 0.", HelpName = "N", Required = true };
        Option<double> frames = new("--frames") { Description = "Frames from the first passage of the mark to the last, 2 or more.", HelpName = "N", Required = true };
        Option<double> rate = new("--rate") { Description = "Frames a second, above 0; counts as exact.", HelpName = "FPS", Required = true };
        Option<int> marks = new("--marks") { Description = "Marks alike, evenly spaced. Default: 1.", HelpName = "N", DefaultValueFactory = _ => 1 };
        Option<bool> unknown = new("--direction-unknown") { Description = "The direction of turning is not known, which halves the speed that can be told." };
        Option<bool> json = CommonOptions.Json();
        Command command = new("frames", "A speed from turns counted in a film.") { turns, frames, rate, marks, unknown, json };
        command.SetAction(parsed =>
        {
            (double counted, double over, double fps, int alike) = (parsed.GetValue(turns), parsed.GetValue(frames), parsed.GetValue(rate), parsed.GetValue(marks));
            if (!(counted > 0 && over >= 2 && fps > 0 && alike >= 1 && double.IsFinite(counted) && double.IsFinite(over) && double.IsFinite(fps)))
                throw new CliException(ExitCode.BadInput, "--turns and --rate are above 0, --frames is 2 or more and --marks 1 or more");
            bool known = !parsed.GetValue(unknown);
            string method = FormattableString.Invariant($"turns over frames; readable below {FrameCount.Limit(fps, alike, known):0} rpm");
            return Reckoned.Write(parsed.GetValue(json), Reckoned.Of("speed", "rpm", method, () => FrameCount.Of(counted, over, fps, alike, known)));
        });
        return command;
    }

    private static Command Winding()
    {
        Option<string> cold = Stated("--cold", "Resistance cold", required: true), coldAt = Stated("--cold-at", "Temperature of the cold winding", required: true);
        Option<string> hot = Stated("--hot", "Resistance hot", required: true), ambient = Stated("--ambient", "Temperature of the surroundings when hot, for the rise");
        Option<bool> json = CommonOptions.Json();
        Command command = new("winding", "A copper winding's temperature from its resistance cold and hot.") { cold, coldAt, hot, ambient, json };
        command.SetAction(parsed =>
        {
            Input before = StatedValue.Positive(parsed.GetValue(cold)!, "cold resistance", "Ohm"), after = StatedValue.Positive(parsed.GetValue(hot)!, "hot resistance", "Ohm");
            Input at = StatedValue.Read(parsed.GetValue(coldAt)!, "cold temperature", "degC");
            const string method = "resistance of copper";
            List<Figure> figures = [Reckoned.Of("winding-temperature", "degC", method, () => WindingTemperature.Of(before, at, after))];
            if (parsed.GetValue(ambient) is { } text)
            {
                Input around = StatedValue.Read(text, "ambient temperature", "degC");
                figures.Add(Reckoned.Of("winding-rise", "K", method, () => WindingTemperature.Rise(before, at, after, around)));
            }

            return Reckoned.Write(parsed.GetValue(json), figures);
        });
        return command;
    }

    internal static Option<string> Stated(string option, string what, bool required = false) =>
        new(option) { Description = $"{what}, as {StatedValue.HowToWrite}.", HelpName = "QUANTITY", Required = required };
}
