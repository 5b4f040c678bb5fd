using System.Text.Json;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Changing;

/// <summary>Compiles one project of ours in memory with one of its files changed, with the references and options that its own build has.</summary>
public sealed class Compiler
{
    private readonly CSharpCompilation _compilation;
    private readonly Dictionary<string, SyntaxTree> _trees;
    private readonly CSharpParseOptions _options;

    /// <param name="project">The project's folder, from the root of the checkout.</param>
    public Compiler(string project)
    {
        string folder = Checkout.At(project);
        CSharpCommandLineArguments call = CSharpCommandLineParser.Default.Parse(Arguments(folder), folder, sdkDirectory: null);
        _options = call.ParseOptions;
        _trees = call.SourceFiles.ToDictionary(f => Path.GetFullPath(f.Path), f => Parse(File.ReadAllText(f.Path), f.Path));
        _compilation = CSharpCompilation.Create(
            call.CompilationName, _trees.Values, call.MetadataReferences.Select(r => MetadataReference.CreateFromFile(Path.Combine(folder, r.Reference))),
            call.CompilationOptions.WithGeneralDiagnosticOption(ReportDiagnostic.Suppress).WithSpecificDiagnosticOptions([]));
        AssemblyFile = call.CompilationName + ".dll";
    }

    /// <summary>Name of the assembly's file.</summary>
    public string AssemblyFile { get; }

    /// <summary>The project's own sources, from the root of the checkout, without what the build generates.</summary>
    public IEnumerable<string> Files => _trees.Keys.Select(f => Path.GetRelativePath(Checkout.Root, f).Replace('\\', '/'))
        .Where(f => !f.Contains("/obj/", StringComparison.Ordinal)).Order(StringComparer.Ordinal);

    /// <summary>The syntax of one of them.</summary>
    public SyntaxTree Tree(string file) => _trees[Checkout.At(file)];

    /// <summary>The assembly with one file's text replaced; null where it cannot be compiled.</summary>
    public byte[]? Compile(string file, string text)
    {
        SyntaxTree own = Tree(file);
        using MemoryStream assembly = new();
        bool done = _compilation.ReplaceSyntaxTree(own, Parse(text, own.FilePath)).Emit(assembly).Success;
        return done ? assembly.ToArray() : null;
    }

    private SyntaxTree Parse(string text, string path) => CSharpSyntaxTree.ParseText(text, _options, path, System.Text.Encoding.UTF8);

    // The build is asked what it would tell the compiler, and compiles nothing.
    private static IEnumerable<string> Arguments(string folder)
    {
        Ended asked = Child.Run("dotnet", [
            "msbuild", folder, "-t:ResolveReferences;CoreCompile", $"-p:Configuration={Checkout.Build}", "-p:DesignTimeBuild=true", "-p:BuildProjectReferences=false",
            "-p:ProvideCommandLineArgs=true", "-p:SkipCompilerExecution=true", "-p:NonExistentFile=none", "-getItem:CscCommandLineArgs"], folder, TimeSpan.FromMinutes(5));
        if (asked.Code != 0)
            throw new InvalidOperationException($"the build does not say how it compiles {folder}:\n{asked.Output}");
        using JsonDocument answer = JsonDocument.Parse(asked.Output);
        return [.. answer.RootElement.GetProperty("Items").GetProperty("CscCommandLineArgs").EnumerateArray().Select(a => a.GetProperty("Identity").GetString()!)];
    }
}
