namespace RigControl.Telemetry.Broker;

/// <summary>Who may publish and read what. Everything that is not written here is denied.</summary>
/// <param name="topics">The one rig that this broker serves.</param>
internal sealed class Rights(Topics topics)
{
    public bool MayPublish(Role role, string topic) => role switch
    {
        Role.Host => topic.StartsWith(topics.Root + "/", StringComparison.Ordinal) && !topic.StartsWith(topics.Root + "/command/", StringComparison.Ordinal),
        Role.Operator => topic == topics.Stop || topic == topics.Acknowledge,
        _ => false,
    };

    /// <summary>Commands are for the host's eyes alone: whoever could read them could send them again.</summary>
    public bool MaySubscribe(Role role, string filter) => role switch
    {
        Role.Host => filter.StartsWith(topics.Root + "/", StringComparison.Ordinal),
        Role.Reader or Role.Operator => !filter.StartsWith('$') && !IsOfCommands(filter),
        _ => false,
    };

    private static bool IsOfCommands(string filter) => filter.Split('/') is { Length: > 4 } parts && parts[4] == "command";
}
