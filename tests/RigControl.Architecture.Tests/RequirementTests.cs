using RigControl.Contracts;
using RigControl.Interlocks;

namespace RigControl.Architecture.Tests;

/// <summary>SAFETY.md and the tests hold each other: no requirement without a test, no test of a requirement that is not there.</summary>
public class RequirementTests
{
    [Fact]
    public void Every_requirement_names_tests_that_carry_its_number()
    {
        HashSet<(string, string)> carried = [.. SafetyPage.Carried()];
        List<string> broken = [];
        foreach ((string number, string[] tests) in SafetyPage.Required())
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
        HashSet<(string, string)> required = [.. SafetyPage.Required().SelectMany(r => r.Tests.Select(t => (r.Number, t)))];
        Assert.Empty(SafetyPage.Carried().Where(c => !required.Contains(c)).Select(c => $"{c.Test} carries {c.Number}, but SAFETY.md does not name it there"));
    }

    [Fact]
    public void Every_interlock_serves_a_requirement()
    {
        string[] numbers = [.. SafetyPage.Required().Select(r => r.Number)];
        IEnumerable<IInterlockPlugin> plugins = typeof(LidClosedPlugin).Assembly.GetExportedTypes()
            .Where(t => typeof(IInterlockPlugin).IsAssignableFrom(t) && !t.IsAbstract)
            .Select(t => (IInterlockPlugin)Activator.CreateInstance(t)!);
        Assert.All(plugins, p => Assert.Contains(p.Requirement, numbers));
    }
}
