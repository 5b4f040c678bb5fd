namespace RigControl.EndToEnd.Tests;

/// <summary>Runs that many tests begin with, made with the program.</summary>
internal static class ToolRuns
{
    /// <summary>A file that comes with the program, with one thing changed.</summary>
    public static string Changed(string file, string find, string replace)
    {
        string text = File.ReadAllText(Path.Combine(Tool.Root, "procedures", file));
        Assert.Contains(find, text, StringComparison.Ordinal);
        return text.Replace(find, replace, StringComparison.Ordinal);
    }

    /// <summary>Records a procedure on the simulated rig and gives the run's name.</summary>
    public static string Record(this Tool tool, string procedure, string article, string rig = "procedures/simulated.rig.yaml") =>
        tool.Run("run", procedure, "--rig", rig, "--article", article, "--pace", "max", "--json").Json.GetProperty("run").GetString()!;

    /// <summary>Records the procedure that runs where none is named.</summary>
    public static Said Simulate(this Tool tool) => tool.Run("run", "--pace", "max", "--seed", "3", "--json");

    /// <summary>Types readings in and gives the run's name.</summary>
    public static string Enter(this Tool tool, params string[] readings) =>
        tool.Run(["enter", .. readings, "--article", "disc-180", "--json"]).Json.GetProperty("run").GetString()!;
}
