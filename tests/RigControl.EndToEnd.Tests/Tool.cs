using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>What a finished program said.</summary>
public sealed record Said(int ExitCode, string Output, string Errors)
{
    public JsonElement Json => JsonDocument.Parse(Output).RootElement;
}

/// <summary>The program as a user runs it: a process of its own, with a logbook of its own in a folder of its own.</summary>
public sealed class Tool : IDisposable
{
    public static string Root { get; } = FindRoot();

    public string Folder { get; } = Directory.CreateTempSubdirectory("rigcontrol-test-").FullName;

    public string Logbook => Path.Combine(Folder, "logbook.sqlite");

    /// <summary>The built program of the same configuration as this test.</summary>
    public static string Program { get; } = Path.Combine(Root, "src", "RigControl.Cli", "bin", Configuration, "net10.0", "rigcontrol.dll");

    public static string Configuration => AppContext.BaseDirectory.Contains($"{Path.DirectorySeparatorChar}Release{Path.DirectorySeparatorChar}", StringComparison.Ordinal) ? "Release" : "Debug";

    /// <summary>Writes a file into the test's folder and returns its path.</summary>
    public string Write(string name, string text)
    {
        string path = Path.Combine(Folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    /// <summary>The rig file that comes with the program, with one line changed.</summary>
    public string SimulatedRig(string find, string replace)
    {
        string text = File.ReadAllText(Path.Combine(Root, "procedures", "simulated.rig.yaml"));
        Assert.Contains(find, text, StringComparison.Ordinal);
        return Write("changed.rig.yaml", text.Replace(find, replace, StringComparison.Ordinal));
    }

    /// <summary>A folder with the program's plugins and a further one, which the tests' build made.</summary>
    public string PluginsWith(string plugin)
    {
        string folder = Path.Combine(Folder, "plugins");
        CopyFolder(Path.Combine(Path.GetDirectoryName(Program)!, "plugins"), folder);
        CopyFolder(Path.Combine(Root, "tests", plugin, "bin", Configuration, "net10.0"), Path.Combine(folder, plugin));
        return folder;
    }

    public static void CopyFolder(string from, string to)
    {
        foreach (string file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            string target = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target, overwrite: true);
        }
    }

    /// <summary>Runs to the end.</summary>
    public Said Run(params string[] arguments)
    {
        using Process process = Begin(arguments);
        return End(process);
    }

    /// <summary>Runs to the end where no file may grow beyond a size, which a program sees as it sees a full disk.</summary>
    public Said RunWithDiskOf(int kibibytes, params string[] arguments)
    {
        // The runtime's own executable memory is a file too, unless told otherwise.
        string shell = $"trap '' XFSZ; ulimit -f {kibibytes}; DOTNET_EnableWriteXorExecute=0 exec dotnet \"$@\"";
        using Process process = Begin("bash", ["-c", shell, "bash", Program, .. arguments]);
        return End(process);
    }

    /// <summary>Runs to the end with more in its environment.</summary>
    public Said RunWith(Dictionary<string, string> environment, params string[] arguments)
    {
        using Process process = Begin("env", [.. environment.Select(v => $"{v.Key}={v.Value}"), "dotnet", Program, .. arguments]);
        return End(process);
    }

    /// <summary>Runs to the end as a shell does, with what is redirected; the exit code is the program's.</summary>
    public Said RunInShell(string line)
    {
        using Process process = Begin("bash", ["-c", $"set -o pipefail; dotnet {Program} {line}"]);
        return End(process);
    }

    /// <summary>Starts in a terminal of its own, to be typed at.</summary>
    public Process Type(params string[] arguments) =>
        Begin("script", ["-qfec", $"dotnet {Program} {string.Join(' ', arguments)}", "/dev/null"]);

    /// <summary>Starts and returns; for programs that are to be killed, stopped or typed at.</summary>
    public Process Begin(params string[] arguments) => Begin("dotnet", [Program, .. arguments]);

    private Process Begin(string program, string[] arguments)
    {
        ProcessStartInfo start = new(program, arguments)
        {
            RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Root,
        };
        start.Environment["RIGCONTROL_LOGBOOK"] = Logbook;
        start.Environment["XDG_DATA_HOME"] = Folder;
        start.Environment["NO_COLOR"] = "1";
        Process process = Process.Start(start)!;
        return process;
    }

    public static Said End(Process process)
    {
        process.StandardInput.Close();
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new Said(process.ExitCode, output, errors.Result);
    }

    /// <summary>Reads standard error until a line holds the words; the lines before are returned too.</summary>
    public static string WaitFor(StreamReader reader, string words)
    {
        List<string> lines = [];
        while (reader.ReadLine() is { } line)
        {
            lines.Add(line);
            if (line.Contains(words, StringComparison.Ordinal))
                return string.Join('\n', lines);
        }

        throw new InvalidOperationException($"the program ended without saying '{words}'; it said:\n{string.Join('\n', lines)}");
    }

    /// <summary>Sends a signal by its name, such as INT.</summary>
    public static void Signal(Process process, string name)
    {
        using Process kill = Process.Start("kill", ["-" + name, process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "RigControl.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests run outside the repository");
    }
}
