using System.Diagnostics;

namespace RigControl.Kernel.Tests.Exploration;

/// <summary>Not sampled: every state of a small world that can be reached, and every input in each.</summary>
public class ExplorationTests(ITestOutputHelper output)
{
    public static TheoryData<string> Names() => [.. World.All.Select(w => w.Name)];

    [Trait("Requirement", "SAF-080")]
    [Theory]
    [MemberData(nameof(Names))]
    public void Every_rule_holds_in_every_state_that_can_be_reached(string name)
    {
        World world = World.All.Single(w => w.Name == name);
        Explorer explorer = new(world);
        Stopwatch watch = Stopwatch.StartNew();
        explorer.Run();
        output.WriteLine($"{name}: {explorer.States} states, {explorer.Scans} scans, {watch.Elapsed.TotalSeconds:0.0} s");
        Assert.True(explorer.Broken is null, explorer.Broken);
        Assert.All(Enumerable.Range(0, world.Configuration.StepCount), step => Assert.Contains(explorer.Reached, r => r.Step == step && r.State != RigState.SafeStop));
        Keep(world, [.. explorer.Passages.Select(p => p.Line).Order(StringComparer.Ordinal)]);
    }

    // The passages stand in a file, so that whatever else watches the kernel can be held against them; UPDATE_DOCS=1 writes it anew.
    private static void Keep(World world, string[] passages)
    {
        string file = Path.Combine(Repository.Root, "shared", "kernel", $"passages-{world.Name.Replace(' ', '-')}.txt");
        if (Environment.GetEnvironmentVariable("UPDATE_DOCS") == "1")
            File.WriteAllLines(file, passages);
        Assert.Equal(File.ReadAllLines(file), passages);
    }
}
