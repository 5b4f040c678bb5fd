using System.Text.Json.Nodes;

namespace RigControl.Kernel.Tests.Support;

/// <summary>What shared/reference/safety/stop_categories.json says of stops and of what follows them; where it is from stands there.</summary>
internal static class StopReference
{
    private static readonly JsonNode File = JsonNode.Parse(System.IO.File.ReadAllText(Path.Combine(Repository.Root, "shared", "reference", "safety", "stop_categories.json")))!;

    /// <summary>Its acts that are no start.</summary>
    public static IEnumerable<string> Acts => File["acts"]!.AsArray().Select(a => (string)a!["act"]!);

    /// <summary>The category of a stop by what became of the power; null where no category is like that.</summary>
    public static int? CategoryOf(bool? whileSlowing, bool atRest) => File["categories"]!.AsArray()
        .Where(c => (bool)c!["powerWhileSlowing"]! == whileSlowing && (bool)c["powerAtRest"]! == atRest).Select(c => (int?)c!["category"]).SingleOrDefault();

    /// <summary>Whether an emergency stop may be of a category.</summary>
    public static bool IsForEmergencies(int category) => (bool)File["categories"]!.AsArray().Single(c => (int)c!["category"]! == category)!["emergency"]!;

    public static bool Starts(string act) => (bool)Act(act)["starts"]!;

    public static bool PermitsRestart(string act) => (bool)Act(act)["permitsRestart"]!;

    private static JsonNode Act(string act) => File["acts"]!.AsArray().Single(a => (string)a!["act"]! == act)!;
}
