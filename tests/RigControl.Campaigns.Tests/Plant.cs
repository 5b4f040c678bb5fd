namespace RigControl.Campaigns.Tests;

/// <summary>Scenarios without chance: no fault but those named, and an operator who keeps to the order.</summary>
internal static class Plant
{
    public static readonly Scenario Quiet = new() { Seed = 1, Faults = [], Restlessness = 0 };

    public static Scenario With(FaultKind kind, double from, double to, double size = 0.5) =>
        Quiet with { Faults = [new PlannedFault(kind, from, to, SensorFault.ChannelOf(kind) ?? 0, size)] };

    /// <summary>What the checkers are not told of.</summary>
    public static Scenario Hiding(this Scenario scenario, FaultKind kind, double from, double to) =>
        scenario with { Undeclared = [new PlannedFault(kind, from, to, 0, 0.5)] };
}
