using System.Xml.Linq;

namespace RigControl.Architecture.Tests;

/// <summary>Who may reference whom: the table of docs/architecture.md, held.</summary>
public class ReferenceTests
{
    // Room → rooms and packages it may reference. What is not named here is not allowed.
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["RigControl.Model"] = [],
        ["RigControl.Kernel"] = ["RigControl.Model", "Stateless", "System.IO.Hashing"],
        ["RigControl.Physics"] = ["RigControl.Model"],
        ["RigControl.Analysis"] = ["RigControl.Model", "RigControl.Physics", "MathNet.Numerics"],
        ["RigControl.Rehearsal"] = ["RigControl.Model", "RigControl.Kernel", "RigControl.Physics", "RigControl.Analysis"],
        ["RigControl.Documents"] = ["RigControl.Model", "CsvHelper", "YamlDotNet", "UnitsNet"],
        ["RigControl.Contracts"] = ["RigControl.Model"],
        ["RigControl.Contracts.Buses"] = ["System.Device.Gpio"],
        ["RigControl.Runtime"] = ["RigControl.Model", "RigControl.Kernel", "RigControl.Contracts"],
        ["RigControl.Logbook"] = ["RigControl.Model", "Microsoft.Data.Sqlite", "Parquet.Net"],
        ["RigControl.Reports"] = ["RigControl.Model", "RigControl.Analysis", "ScottPlot"],
        ["RigControl.Telemetry"] = ["RigControl.Model", "MQTTnet", "MQTTnet.Server"],
        ["RigControl.Cli"] =
        [
            "RigControl.Model", "RigControl.Kernel", "RigControl.Documents", "RigControl.Contracts", "RigControl.Runtime", "RigControl.Logbook",
            "RigControl.Analysis", "RigControl.Rehearsal", "RigControl.Reports", "RigControl.Physics", "RigControl.Telemetry", "Serilog", "Serilog.Sinks.File", "Spectre.Console",
            "System.CommandLine",
        ],
        ["RigControl.Interlocks"] = [],
        ["RigControl.Devices.SimulatedRig"] = ["RigControl.Physics"],
        ["RigControl.Devices.RigBoard"] = ["System.IO.Ports"],
        ["RigControl.Devices.I2cSensors"] = ["RigControl.Contracts.Buses", "Iot.Device.Bindings", "System.Device.Gpio"],
    };

    // Every plugin references these two, through the folder's own props.
    private static readonly string[] OfEveryPlugin = ["RigControl.Contracts", "RigControl.Model"];

    // Analyzers see the code and are not referenced by it.
    private static readonly string[] Analyzers = ["Microsoft.CodeAnalysis.BannedApiAnalyzers"];

    [Fact]
    public void Every_room_references_only_what_the_table_allows()
    {
        List<string> broken = [];
        foreach (string project in Repository.Projects("src", "plugins"))
        {
            string name = Path.GetFileNameWithoutExtension(project);
            Assert.True(Allowed.ContainsKey(name), $"{name} is a room that the table does not know");
            string[] allowed = [.. Allowed[name], .. OfEveryPlugin.Where(_ => project.Contains("/plugins/", StringComparison.Ordinal)), .. Analyzers];
            broken.AddRange(References(project).Where(r => !allowed.Contains(r)).Select(r => $"{name} references {r}"));
        }

        Assert.Empty(broken);
    }

    [Fact]
    public void The_layers_of_the_model_look_only_downwards()
    {
        string[] layers = ["Signals", "Rig", "Procedures", "Records"];
        List<string> broken = [];
        foreach (string file in Repository.Sources("src/RigControl.Model"))
        {
            int own = Array.FindIndex(layers, l => file.Contains($"/{l}/", StringComparison.Ordinal));
            string text = File.ReadAllText(file);
            broken.AddRange(layers.Skip(own + 1).Where(l => text.Contains($"using RigControl.Model.{l};", StringComparison.Ordinal)).Select(l => $"{Repository.Short(file)} looks up to {l}"));
        }

        Assert.Empty(broken);
    }

    [Theory]
    [InlineData("src/RigControl.Kernel/RigControl.Kernel.csproj")]
    [InlineData("plugins/RigControl.Interlocks/RigControl.Interlocks.csproj")]
    public void A_pure_room_is_built_with_the_list_of_banned_symbols(string project)
    {
        string text = File.ReadAllText(Repository.At(project));
        Assert.Contains("Microsoft.CodeAnalysis.BannedApiAnalyzers", text, StringComparison.Ordinal);
        Assert.Contains("BannedSymbols.pure-room.txt", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_list_of_banned_symbols_names_clocks_chance_files_and_waiting()
    {
        string list = File.ReadAllText(Repository.At("BannedSymbols.pure-room.txt"));
        foreach (string banned in new[] { "System.DateTime", "System.Random", "System.IO.File", "System.Threading.Thread", "System.Diagnostics.Stopwatch", "System.Math.Sin" })
            Assert.Contains(banned, list, StringComparison.Ordinal);
    }

    private static IEnumerable<string> References(string project)
    {
        XDocument xml = XDocument.Load(project);
        IEnumerable<string> packages = xml.Descendants("PackageReference").Select(e => (string)e.Attribute("Include")!);
        IEnumerable<string> projects = xml.Descendants("ProjectReference")
            .Where(e => (string?)e.Attribute("ReferenceOutputAssembly") != "false")
            .Select(e => Path.GetFileNameWithoutExtension(((string)e.Attribute("Include")!).Replace('\\', '/')));
        return packages.Concat(projects);
    }
}
