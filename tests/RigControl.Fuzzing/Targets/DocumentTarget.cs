using System.Text;
using RigControl.Devices.RigBoard;
using RigControl.Devices.SimulatedRig;
using RigControl.Documents;
using RigControl.Interlocks;
using RigControl.Runtime.Plugins;

namespace RigControl.Fuzzing.Targets;

/// <summary>
/// Files that people write. Whatever is in them, there is a value or there are problems, in order, each inside the file, with
/// something to do about it, and nothing in a sentence that would upset a terminal.
/// </summary>
public sealed class DocumentTarget : ITarget
{
    // Every file goes to every reader, whatever it calls itself.
    private static readonly PluginKindsOfHost Host = new();

    public string Name => "documents";

    public IReadOnlyList<byte[]> Corpus { get; } =
        [.. Directory.EnumerateFiles(Path.Combine(Crashers.Root(), "procedures"), "*.yaml").Order(StringComparer.Ordinal).Select(File.ReadAllBytes)];

    public void Take(byte[] input)
    {
        string text = Encoding.UTF8.GetString(input);
        DocumentReader.KindOf(text);
        Look(text, DocumentReader.ReadProcedure(text, "f"));
        Look(text, DocumentReader.ReadArticle(text, "f"));
        Look(text, DocumentReader.ReadRig(text, "f", Host.Kinds));
        Look(text, DocumentReader.ReadRules(text, "f"));
        DocumentReader.Check(text, "f", Host.Kinds);
    }

    private static void Look<T>(string text, Reading<T> reading)
        where T : class
    {
        Promise(reading.Value is null == reading.Problems.Count > 0, "a value or problems, one of the two");
        string[] lines = text.ReplaceLineEndings("\n").Split('\n');
        Problem? before = null;
        foreach (Problem problem in reading.Problems)
        {
            Promise(before is null || (before.Line, before.Column).CompareTo((problem.Line, problem.Column)) <= 0, $"{problem} comes out of order");
            Promise(problem.Line >= 1 && problem.Line <= lines.Length, $"{problem} is outside of the file");
            Promise(problem.Column >= 1 && problem.Column <= lines[problem.Line - 1].Length + 1, $"{problem} is outside of its line");
            Promise(!problem.ToString().Any(char.IsControl), $"{problem} holds a control character");
            Promise(problem.What.Length > 0 && problem.Remedy.Length > 0, $"{problem} says nothing to do");
            before = problem;
        }
    }

    private static void Promise(bool kept, string what)
    {
        if (!kept)
            throw new BrokenPromiseException(what);
    }

    private sealed class PluginKindsOfHost
    {
        public Model.Rig.PluginKinds Kinds { get; } = PluginCatalog.Of("fuzzing", [new SimulatedRigPlugin(), new RigBoardPlugin()], [.. typeof(LidClosedPlugin).Assembly
            .GetExportedTypes().Where(t => !t.IsAbstract && t.IsAssignableTo(typeof(Contracts.IInterlockPlugin))).Select(t => (Contracts.IInterlockPlugin)Activator.CreateInstance(t)!)]).Kinds;
    }
}
