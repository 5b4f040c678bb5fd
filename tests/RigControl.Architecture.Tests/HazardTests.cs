namespace RigControl.Architecture.Tests;

/// <summary>The hazards of SAFETY.md and its requirements hold each other: no hazard without evidence, no requirement that answers none.</summary>
public class HazardTests
{
    [Fact]
    public void Every_hazard_has_a_control_requirements_and_a_test_of_each()
    {
        HashSet<(string, string)> carried = [.. SafetyPage.Carried()];
        var rows = SafetyPage.Answered().ToArray();
        Assert.NotEmpty(rows);
        List<string> broken = [];
        foreach ((string hazard, string control, string[] numbers, string[] tests) in rows)
        {
            if (control.Length == 0 || numbers.Length == 0)
                broken.Add($"nothing stands against: {hazard}");
            broken.AddRange(numbers.Where(n => !tests.Any(t => carried.Contains((n, t)))).Select(n => $"{hazard}: no test of {n} is named"));
            broken.AddRange(tests.Where(t => !numbers.Any(n => carried.Contains((n, t)))).Select(t => $"{hazard}: {t} carries none of its numbers"));
        }

        Assert.Empty(broken);
    }

    [Fact]
    public void Every_requirement_answers_a_hazard_and_every_number_of_a_hazard_is_a_requirement()
    {
        string[] answering = [.. SafetyPage.Answered().SelectMany(a => a.Numbers).Distinct().Order(StringComparer.Ordinal)];
        Assert.Equal(SafetyPage.Required().Select(r => r.Number).Order(StringComparer.Ordinal), answering);
    }

    [Fact]
    public void What_remains_to_the_user_is_said_with_its_reason_and_claims_no_requirement()
    {
        string[][] left = [.. SafetyPage.Left()];
        Assert.NotEmpty(left);
        Assert.All(left, row => Assert.Equal(3, row.Count(c => c.Length > 0)));
        Assert.DoesNotContain(left, row => row.Any(c => c.Contains("SAF-", StringComparison.Ordinal)));
    }
}
