using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Runs;

/// <summary>What <c>run</c> was asked for; null where an option was left out.</summary>
internal sealed record RunRequest(
    string? Procedure, string? Rig, string? Article, string? Logbook, string? Plugins, bool Json, Pace Pace, ulong? Seed, string? Operator, bool Telemetry, string? Rehearsal);
