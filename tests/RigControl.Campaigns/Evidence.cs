using System.Globalization;
using System.Text;
using RigControl.Campaigns.Checkers;

namespace RigControl.Campaigns;

/// <summary>Keeps a campaign as docs/evidence/campaign.md.</summary>
public static class Evidence
{
    /// <summary>Writes the page of the repository that the program runs in. Returns its path from there.</summary>
    public static string Write(Summary summary, ulong first)
    {
        string root = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(root, "RigControl.sln")))
            root = Path.GetDirectoryName(root) ?? throw new InvalidOperationException("run this from a checkout");
        string page = Path.Combine("docs", "evidence", "campaign.md");
        File.WriteAllText(Path.Combine(root, page), Page(summary, first));
        return page;
    }

    /// <summary>The page.</summary>
    public static string Page(Summary summary, ulong first)
    {
        StringBuilder text = new();
        Line(text, $"# Campaign\n");
        Line(text, $"Written by `dotnet run -c Release --project tests/RigControl.Campaigns -- {summary.Runs} {first} --evidence` on {DateTime.UtcNow:yyyy-MM-dd}.");
        Line(text, $"One seed chooses the plant (ambient temperature, charge of the pack, windage), one or two faults with their times and sizes, and how");
        Line(text, $"restless the operator is, and whether the rig itself demands (both outputs) or the receiver drives through the gate. The ordinary test run takes the first seeds of the same row.\n");
        Line(text, $"{summary}\n");
        AddPromises(text);
        AddClasses(text);
        AddFaults(text, summary);
        AddInterlocks(text, summary);
        return text.ToString();
    }

    private static void AddPromises(StringBuilder text)
    {
        Line(text, $"## Promises\n\nChecked in every period by code that shares nothing with the kernel; those with *really* and *true* look at the plant.\n");
        foreach (string promise in Campaign.Promises)
            Line(text, $"- {promise}");
    }

    private static void AddClasses(StringBuilder text)
    {
        Line(text, $"\n## What the design allows\n");
        Line(text, $"Until a stop takes effect: two scans ({Ms(Allowance.Scans)}), and the contactor's opening ({Ms(Allowance.Opening)}) where the power has to do it.");
        Line(text, $"These classes of fault change that:\n\n| class | faults | allowed |\n|---|---|---|");
        Line(text, $"| host away | HostRestart, DeviceThrows, ScansLate, RigUnpowered, BoardSwapped | {Ms(Allowance.HostSilence)} more: the bench that hears nothing stops by itself |");
        Line(text, $"| pulses cease | BoardRestart or host away, with contactor welded or SlowActuators | {Ms(Allowance.PulseTimeout)} more: without the power the controller's own time without pulses has to pass |");
        Line(text, $"| slow actuators | SlowActuators | the delay that the fault adds, up to {Ms(BenchBreaker.LongestDelay)}, where the power has to do it |");
        Line(text, $"| late or disordered reading | sensor faults | {Ms(Allowance.LateReading)} more for the speed; then the reading is Bad |");
        Line(text, $"| controller does not obey | StuckPulse, ControllerRunaway, ControllerShorted, a third of BoardLies (it puts out a pulse of its own) | by the power alone |");
        Line(text, $"| contactor welded | ContactorWelded, a third of BoardLies (it does not open the contactor) | by the signal alone |");
        Line(text, $"| both ways gone | one of each of the last two | nothing is promised, and of rest nothing is known; only the pack bounds the speed ({Rpm(CampaignRig.TopSpeed)}), and the enclosure has to bear it |");
        Line(text, $"| speed unseen | TachometerSilent, TachometerHalved, TachometerFrozen, TachometerZero; a speed that sticks, drifts, is scaled, mirrored or late | with a controller that obeys, the limit as ever; with one that does not, only the pack bounds the speed |");
        Line(text, $"| rest unseen | the same without TachometerZero, which proves no rest | rest is not really known |");
        Line(text, $"| bolt unseen | BoltStuck with a bolt that reads as home | the bolt is open for nobody to see |");
        Line(text, $"| lid or stop unseen | LidContactStuck with a fault of the other contact, StopContactStuck | the way that is left, or nothing where none is |\n");
    }

    private static void AddFaults(StringBuilder text, Summary summary)
    {
        Line(text, $"## Faults\n\n| fault | runs with it | on while driven | tripped |\n|---|---|---|---|");
        foreach (FaultKind kind in Enum.GetValues<FaultKind>())
            Line(text, $"| {kind} | {summary.RunsWith(kind)} | {summary.DrivenWith(kind)} | {summary.TrippedWith(kind)} |");
    }

    private static void AddInterlocks(StringBuilder text, Summary summary)
    {
        Line(text, $"\n## Interlocks\n\n| interlock | runs in which it latched |\n|---|---|");
        for (int i = 0; i < Campaign.Interlocks.Count; i++)
            Line(text, $"| `{Campaign.Interlocks[i]}` | {summary.LatchedBy(i)} |");
    }

    private static string Ms(double seconds) => string.Create(CultureInfo.InvariantCulture, $"{seconds * 1000:0} ms");

    private static string Rpm(double speed) => string.Create(CultureInfo.InvariantCulture, $"{speed / CampaignRig.RadPerSecond:0} rpm");

    private static void Line(StringBuilder text, FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
