namespace RigControl.Contracts;

/// <summary>The version of everything in this assembly. A plugin of another major version is refused by name.</summary>
public static class ContractVersion
{
    public const int Major = 1;
    public const int Minor = 2;
}
