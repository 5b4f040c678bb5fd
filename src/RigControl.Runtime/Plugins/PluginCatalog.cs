using System.Reflection;
using RigControl.Contracts;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Runtime.Plugins;

/// <summary>Every plugin found in <c>plugins/&lt;Assembly&gt;/</c>. One that cannot be used is named and harms no other.</summary>
public sealed class PluginCatalog
{
    private PluginCatalog(IReadOnlyList<LoadedPlugin> plugins, IReadOnlyList<BrokenPlugin> broken)
    {
        Plugins = plugins;
        Broken = broken;
        Devices = plugins.SelectMany(p => p.Devices).ToDictionary(d => d.Kind);
        Interlocks = plugins.SelectMany(p => p.Interlocks).ToDictionary(i => i.Kind);
        Kinds = new PluginKinds(Devices.Values.Select(KindOf).ToDictionary(k => k.Name), Interlocks.Values.Select(KindOf).ToDictionary(k => k.Name));
    }

    public IReadOnlyList<LoadedPlugin> Plugins { get; }

    public IReadOnlyList<BrokenPlugin> Broken { get; }

    public IReadOnlyDictionary<string, IDevicePlugin> Devices { get; }

    public IReadOnlyDictionary<string, IInterlockPlugin> Interlocks { get; }

    /// <summary>What rig files are checked against.</summary>
    public PluginKinds Kinds { get; }

    /// <summary>The folder that the build lays beside the host.</summary>
    public static string DefaultFolder => Path.Combine(AppContext.BaseDirectory, "plugins");

    /// <summary>A catalogue of plugins that are already in memory, as one assembly of the given name.</summary>
    public static PluginCatalog Of(string assembly, IReadOnlyList<IDevicePlugin> devices, IReadOnlyList<IInterlockPlugin> interlocks) => new(
        [new LoadedPlugin(new PluginIdentity(assembly, "0.0.0", ""), new Version(ContractVersion.Major, ContractVersion.Minor), devices, interlocks)], []);

    /// <summary>Loads every plugin of a folder. A folder that is not there holds no plugins.</summary>
    public static PluginCatalog Load(string folder)
    {
        List<LoadedPlugin> plugins = [];
        List<BrokenPlugin> broken = [];
        string[] candidates = Directory.Exists(folder) ? Directory.GetDirectories(Path.GetFullPath(folder)) : [];
        foreach (string candidate in candidates.Order(StringComparer.Ordinal))
        {
            try
            {
                LoadedPlugin plugin = LoadOne(candidate);
                RefuseTwice(plugin, plugins);
                plugins.Add(plugin);
            }
#pragma warning disable CA1031 // Whatever goes wrong inside a plugin is its own fault and is reported under its name.
            catch (Exception e)
#pragma warning restore CA1031
            {
                broken.Add(new BrokenPlugin(Path.GetFileName(candidate), Innermost(e).Message));
            }
        }

        return new PluginCatalog(plugins, broken);
    }

    /// <summary>The plugin that makes a kind of device or interlock.</summary>
    public LoadedPlugin? MakerOf(string kind) =>
        Plugins.FirstOrDefault(p => p.Devices.Any(d => d.Kind == kind) || p.Interlocks.Any(i => i.Kind == kind));

    /// <summary>Every option of a device with the value in force, as text; empty for a kind that no plugin makes.</summary>
    /// <param name="written">What the rig file says.</param>
    public IReadOnlyDictionary<string, string> OptionsOf(string kind, IReadOnlyDictionary<string, object> written) =>
        Devices.TryGetValue(kind, out IDevicePlugin? plugin) ? OptionsReader.Resolved(OptionsReader.Fill(plugin.OptionsType, written)) : new Dictionary<string, string>();

    private static LoadedPlugin LoadOne(string folder)
    {
        string name = Path.GetFileName(folder);
        string path = Path.Combine(folder, name + ".dll");
        if (!File.Exists(path))
            throw new FileNotFoundException($"the folder {name} holds no {name}.dll");
        Assembly assembly = new PluginLoadContext(path).LoadFromAssemblyPath(path);
        RigPluginAttribute contract = assembly.GetCustomAttribute<RigPluginAttribute>()
            ?? throw new InvalidOperationException($"{name} does not say which contract version it was built against");
        if (contract.Major != ContractVersion.Major || contract.Minor > ContractVersion.Minor)
            throw new InvalidOperationException($"{name} was built against contract {contract.Major}.{contract.Minor}; this host has {ContractVersion.Major}.{ContractVersion.Minor}");
        string version = assembly.GetName().Version?.ToString(3) ?? "0.0.0";
        return new LoadedPlugin(
            new PluginIdentity(name, version, FolderDigest.Of(folder)), new Version(contract.Major, contract.Minor),
            Make<IDevicePlugin>(assembly), Make<IInterlockPlugin>(assembly));
    }

    // What reflection wraps says nothing to a person; what is inside does.
    private static Exception Innermost(Exception e) => e switch
    {
        ReflectionTypeLoadException { LoaderExceptions: [{ } first, ..] } => first,
        TargetInvocationException { InnerException: { } inner } => Innermost(inner),
        _ => e,
    };

    private static List<T> Make<T>(Assembly assembly) => [.. assembly.GetExportedTypes()
        .Where(t => typeof(T).IsAssignableFrom(t) && t is { IsAbstract: false, IsClass: true })
        .OrderBy(t => t.FullName, StringComparer.Ordinal)
        .Select(t => (T)Activator.CreateInstance(t)!)];

    private static PluginKind KindOf(IDevicePlugin plugin) => new(plugin.Kind, plugin.Meaning, OptionsReader.Describe(plugin.OptionsType));

    private static PluginKind KindOf(IInterlockPlugin plugin) => new(plugin.Kind, plugin.Meaning, OptionsReader.Describe(plugin.OptionsType));

    // Describing every kind here keeps a plugin that cannot describe itself from spoiling the catalogue for the others. Of two
    // that make the same kind, which one a rig gets must not hang on the order of folders.
    private static void RefuseTwice(LoadedPlugin plugin, List<LoadedPlugin> others)
    {
        Dictionary<string, string> makers = others.SelectMany(o => KindsOf(o).Select(k => (k.Name, o.Identity.Assembly))).ToDictionary(k => k.Name, k => k.Assembly);
        foreach (PluginKind kind in KindsOf(plugin))
        {
            if (!makers.TryAdd(kind.Name, plugin.Identity.Assembly))
                throw new InvalidOperationException($"{plugin.Identity.Assembly} makes {kind.Name}, which {makers[kind.Name]} makes already; remove one of the two");
        }
    }

    private static IEnumerable<PluginKind> KindsOf(LoadedPlugin plugin) => plugin.Devices.Select(KindOf).Concat(plugin.Interlocks.Select(KindOf));
}
