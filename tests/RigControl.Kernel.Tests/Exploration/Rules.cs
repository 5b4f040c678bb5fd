namespace RigControl.Kernel.Tests.Exploration;

/// <summary>What must hold of every scan from every state that can be reached. Shares no code with the kernel.</summary>
internal static class Rules
{
    public delegate bool Rule(in Seen seen);

    private static readonly KeyValuePair<string, Rule>[] All = [.. KernelRules.All, .. LinkRules.All];

    /// <summary>The first of them that a scan breaks, or null.</summary>
    public static string? Broken(in Seen seen)
    {
        foreach ((string name, Rule rule) in All)
        {
            if (!rule(seen))
                return name;
        }

        return null;
    }
}
