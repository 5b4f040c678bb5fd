using System.Reflection;
using System.Runtime.Loader;

namespace RigControl.Runtime.Plugins;

/// <summary>
/// Loads one plugin with its own dependencies. What host and plugin talk about comes from the host, or the same type
/// would exist twice.
/// </summary>
internal sealed class PluginLoadContext(string assemblyPath) : AssemblyLoadContext(Path.GetFileNameWithoutExtension(assemblyPath))
{
    private static readonly string[] Shared = ["RigControl.Model", "RigControl.Contracts"];

    private readonly AssemblyDependencyResolver _resolver = new(assemblyPath);

    protected override Assembly? Load(AssemblyName assemblyName)
    {
        if (Shared.Contains(assemblyName.Name))
            return null;
        string? path = _resolver.ResolveAssemblyToPath(assemblyName);
        return path is null ? null : LoadFromAssemblyPath(path);
    }

    protected override nint LoadUnmanagedDll(string unmanagedDllName)
    {
        string? path = _resolver.ResolveUnmanagedDllToPath(unmanagedDllName);
        return path is null ? nint.Zero : LoadUnmanagedDllFromPath(path);
    }
}
