namespace RigControl.Contracts;

/// <summary>Marks an assembly as a plugin: <c>[assembly: RigPlugin(ContractVersion.Major, ContractVersion.Minor)]</c>.</summary>
[AttributeUsage(AttributeTargets.Assembly)]
public sealed class RigPluginAttribute(int major, int minor) : Attribute
{
    public int Major { get; } = major;

    public int Minor { get; } = minor;
}
