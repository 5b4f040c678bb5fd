using System.Reflection;
using System.Reflection.Emit;
using System.Reflection.Metadata;

namespace RigControl.Runtime.Tests.Support;

/// <summary>A folder of plugins, written for one test and removed with it.</summary>
internal sealed class PluginFolder : IDisposable
{
    public string Root { get; } = Directory.CreateTempSubdirectory("rigcontrol-plugins-").FullName;

    /// <summary>The interlocks as the build made them.</summary>
    public PluginFolder AddInterlocks(string name = "RigControl.Interlocks")
    {
        string built = typeof(PluginFolder).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "InterlocksFolder").Value!;
        string folder = Path.Combine(Root, name);
        Directory.CreateDirectory(folder);
        foreach (string file in Directory.GetFiles(built))
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        return this;
    }

    public PluginFolder AddEmpty(string name)
    {
        Directory.CreateDirectory(Path.Combine(Root, name));
        return this;
    }

    public PluginFolder AddText(string name, string text)
    {
        AddEmpty(name);
        File.WriteAllText(PathOf(name), text);
        return this;
    }

    /// <summary>Writes an assembly that says which contract it was built against, with a class derived from each of the given ones.</summary>
    public PluginFolder AddAssembly(string name, (int Major, int Minor)? contract, params Type[] parents)
    {
        AddEmpty(name);
        PersistedAssemblyBuilder assembly = new(new AssemblyName(name) { Version = new Version(2, 3, 4) }, typeof(object).Assembly);
        if (contract is { } c)
        {
            ConstructorInfo make = typeof(RigPluginAttribute).GetConstructor([typeof(int), typeof(int)])!;
            assembly.SetCustomAttribute(new CustomAttributeBuilder(make, [c.Major, c.Minor]));
        }

        ModuleBuilder module = assembly.DefineDynamicModule(name);
        foreach (Type parent in parents)
            module.DefineType(name + "." + parent.Name, TypeAttributes.Public | TypeAttributes.Class, parent).CreateType();
        assembly.Save(PathOf(name));
        return this;
    }

    public PluginCatalog Load() => PluginCatalog.Load(Root);

    public string PathOf(string name) => Path.Combine(Root, name, name + ".dll");

    public void Dispose() => Directory.Delete(Root, recursive: true);
}
