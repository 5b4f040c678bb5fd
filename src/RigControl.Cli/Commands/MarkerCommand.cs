using System.CommandLine;
using System.Globalization;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Logbook;
using RigControl.Model.Records;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>marker</c>: lines a clip up with the record by the light that is in both.</summary>
internal static class MarkerCommand
{
    public static Command Build()
    {
        Argument<string> run = RunsCommand.RunArgument();
        Argument<string?> clip = new("CLIP") { Description = "The clip's file. Left out, the times of the light are listed.", Arity = ArgumentArity.ZeroOrOne };
        Option<double?> at = new("--at") { Description = "Time in the clip at which the light comes on, s.", HelpName = "SECONDS" };
        Option<long?> frame = new("--frame") { Description = "Instead of --at: the first frame with the light, from 0.", HelpName = "N" };
        Option<double?> rate = new("--rate") { Description = "With --frame: frames a second at which the clip was taken.", HelpName = "FPS" };
        Option<int> which = new("--light") { Description = "Which time that the light came on, from 1.", HelpName = "N", DefaultValueFactory = _ => 1 };
        (Option<string?> logbook, Option<bool> json) = (CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("marker", "Writes the offset of a clip: the time of the run at which it begins.") { run, clip, at, frame, rate, which, logbook, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            string found = RunsCommand.Find(book, parsed.GetValue(run)!);
            IReadOnlyList<double> lights = Lights(book, found);
            if (parsed.GetValue(clip) is not { } file)
                return List(found, lights, parsed.GetValue(json));
            double inClip = InClip(parsed.GetValue(at), parsed.GetValue(frame), parsed.GetValue(rate));
            int light = parsed.GetValue(which);
            if (light < 1 || light > lights.Count)
                throw new CliException(ExitCode.BadInput, lights.Count == 0 ? $"the light never came on in run {found}: press m during a run, or name another" : $"the light came on {lights.Count} times in run {found}: --light is 1 to {lights.Count}");
            double offset = lights[light - 1] - inClip;
            // The light comes on somewhere between two frames.
            double? frameTime = 1 / parsed.GetValue(rate);
            book.Attach(found, RemarkCommands.Digest(file, offset));
            if (parsed.GetValue(json))
                JsonText.Write(new { run = found, clip = Path.GetFullPath(file), offset, within = frameTime, light = lights[light - 1], lights });
            else
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"run {found}: time 0 of {file} is {offset:0.0000} s of the run{(frameTime is { } one ? $", within a frame of {one:0.0000} s" : "")}; add that to a time in the clip"));
            return ExitCode.Done;
        });
        return command;
    }

    private static int List(string run, IReadOnlyList<double> lights, bool json)
    {
        if (json)
            JsonText.Write(new { run, lights });
        else if (lights.Count == 0)
            Console.WriteLine($"the light never came on in run {run}");
        for (int i = 0; i < lights.Count && !json; i++)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i + 1}: on at {lights[i]:0.0000} s"));
        return ExitCode.Done;
    }

    private static double InClip(double? at, long? frame, double? rate) => (at, frame, rate) switch
    {
        ({ } seconds, null, null) when double.IsFinite(seconds) && seconds >= 0 => seconds,
        (null, { } number, { } fps) when number >= 0 && double.IsFinite(fps) && fps > 0 => number / fps,
        _ => throw new CliException(ExitCode.BadInput, "say when the light comes on in the clip: --at SECONDS, or --frame N with --rate FPS"),
    };

    /// <summary>When the light came on, s.</summary>
    private static List<double> Lights(LogbookFile book, string run)
    {
        List<double> lights = [];
        bool on = false;
        foreach (ref readonly ScanRecord scan in book.Scans(run))
        {
            if (scan.Outputs.Marker && !on)
                lights.Add(scan.Now.TotalSeconds);
            on = scan.Outputs.Marker;
        }

        return lights;
    }
}
