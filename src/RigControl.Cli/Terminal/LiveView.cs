using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;
using Spectre.Console;
using Spectre.Console.Rendering;

namespace RigControl.Cli.Terminal;

/// <summary>The run as a person at the bench sees it: drawn ten times a second by a thread of its own.</summary>
internal sealed class LiveView : IDisposable
{
    // Ten times a second: faster than anybody reads, and no load beside the scan.
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(100);

    private readonly RunWatch _watch;
    private readonly LiveScreen _screen;
    private readonly Notices _notices;
    private readonly Func<string> _question;
    private readonly Thread _thread;
    private volatile bool _ended;

    /// <param name="rig">What runs.</param>
    /// <param name="watch">Where it can be seen.</param>
    /// <param name="notices">What has happened.</param>
    /// <param name="question">What is asked at the moment; empty while nothing is.</param>
    public LiveView(AssembledRig rig, RunWatch watch, Notices notices, Func<string> question)
    {
        (_watch, _notices, _question) = (watch, notices, question);
        _screen = new LiveScreen(rig);
        _thread = new Thread(Draw) { Name = "live view", IsBackground = true };
    }

    /// <summary>Whether the terminal can be drawn on: it is one, and nobody asked for plain lines.</summary>
    public static bool CanDraw =>
        !Console.IsOutputRedirected && AnsiConsole.Profile.Capabilities.Ansi && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"));

    public void Begin() => _thread.Start();

    public void Dispose()
    {
        _ended = true;
        _thread.Join(TimeSpan.FromSeconds(1));
    }

    private void Draw()
    {
        AnsiConsole.Live(Text.Empty).AutoClear(true).Overflow(VerticalOverflow.Crop).Cropping(VerticalOverflowCropping.Bottom).Start(context =>
        {
            while (!_ended)
            {
                (ScanRecord record, InputImage image) = _watch.Latest();
                context.UpdateTarget(Picture(record, image));
                context.Refresh();
                Thread.Sleep(Period);
            }
        });
    }

    // One row less than there are: writing into the last one would scroll.
    private Rows Picture(in ScanRecord record, in InputImage image)
    {
        Profile terminal = AnsiConsole.Profile;
        char cell = terminal.Capabilities.Unicode ? '█' : '#';
        return new Rows(_screen.Of(record, image, _notices, _question(), (terminal.Width, terminal.Height - 1), cell).Select(Drawn));
    }

    private static Paragraph Drawn(Line line) => new Paragraph(line.Text, line.Style).Append(line.Beside.Length > 0 || line.Text.Length > 0 ? line.Beside : " ");
}
