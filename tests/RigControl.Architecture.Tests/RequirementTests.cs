using System.Text.RegularExpressions;
using RigControl.Contracts;
using RigControl.Interlocks;

namespace RigControl.Architecture.Tests;

/// <summary>SAFETY.md and the tests hold each other: no requirement without a test, no test of a requirement that is not there.</summary>
public partial class RequirementTests
{
    [Fact]
    public void Every_requirement_names_tests_that_carry_its_number()
    {
        HashSet<(string, string)> carried = [.. Carried()];
        List<string> broken = [];
        foreach ((string number, string[] tests) in Required())
        {
            if (tests.Length == 0)
                broken.Add($"{number} names no test");
            broken.AddRange(tests.Where(t => !carried.Contains((number, t))).Select(t => $"{number} names {t}, which does not carry it"));
        }

        Assert.Empty(broken);
    }

    [Fact]
    public void Every_test_that_carries_a_number_stands_in_the_table()
    {
        HashSet<(string, string)> required = [.. Required().SelectMany(r => r.Tests.Select(t => (r.Number, t)))];
        Assert.Empty(Carried().Where(c => !required.Contains(c)).Select(c => $"{c.Test} carries {c.Number}, but SAFETY.md does not name it there"));
    }

    [Fact]
    public void Every_interlock_serves_a_requirement()
    {
        string[] numbers = [.. Required().Select(r => r.Number)];
        IEnumerable<IInterlockPlugin> plugins = typeof(LidClosedPlugin).Assembly.GetExportedTypes()
            .Where(t => typeof(IInterlockPlugin).IsAssignableFrom(t) && !t.IsAbstract)
            .Select(t => (IInterlockPlugin)Activator.CreateInstance(t)!);
        Assert.All(plugins, p => Assert.Contains(p.Requirement, numbers));
    }

    private static IEnumerable<(string Number, string[] Tests)> Required() =>
        File.ReadLines(Repository.At("SAFETY.md")).Select(l => Row().Match(l)).Where(m => m.Success)
            .Select(m => (m.Groups[1].Value, Quoted().Matches(m.Groups[2].Value).Select(q => q.Groups[1].Value).ToArray()));

    private static IEnumerable<(string Number, string Test)> Carried() => Repository.Sources("tests")
        .SelectMany(f => Trait().Matches(File.ReadAllText(f)))
        .SelectMany(m => Number().Matches(m.Groups[1].Value).Select(n => (n.Value, m.Groups[2].Value)));

    [GeneratedRegex(@"^\| (SAF-\d{3}) \|[^|]*\|(.*)\|$")]
    private static partial Regex Row();

    [GeneratedRegex("`([A-Za-z0-9_]+)`")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"SAF-\d{3}")]
    private static partial Regex Number();

    // One or more traits above a test, among its other attributes.
    [GeneratedRegex(@"((?:\[Trait\(""Requirement"", ""SAF-\d{3}""\)\]\s*)+)(?:\[[^\]]*\]\s*)*public (?:async )?(?:void|Task) ([A-Za-z0-9_]+)\(")]
    private static partial Regex Trait();
}
