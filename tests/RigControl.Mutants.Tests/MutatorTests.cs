using Microsoft.CodeAnalysis.CSharp;
using RigControl.Mutants.Changing;

namespace RigControl.Mutants.Tests;

/// <summary>Which mistakes are made in which piece of a program.</summary>
public class MutatorTests
{
    [Theory]
    [InlineData("a < b", "a >= b", "a <= b")]
    [InlineData("a >= b", "a < b", "a > b")]
    [InlineData("a == b", "a != b")]
    [InlineData("x && y", "x || y")]
    [InlineData("x || y", "x && y")]
    [InlineData("a + b > c", "a - b > c", "a + b <= c", "a + b >= c")]
    [InlineData("a * b != c", "a / b != c", "a * b == c")]
    [InlineData("a is > 3 and <= 5", "a is <= 3 and <= 5", "a is >= 3 and <= 5", "a is > 4 and <= 5", "a is > 3 and > 5", "a is > 3 and < 5", "a is > 3 and <= 6")]
    [InlineData("x == true", "x != true", "x == false")]
    public void In_an_expression_its_operators_and_constants_are_changed(string expression, params string[] expected)
    {
        string[] made = Bodies($"bool M() => {expression};", "=> ", ";");
        Assert.Equal(expected.Append($"!({expression})").Order(StringComparer.Ordinal), made.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("if (x) F();", "if (!(x)) F();", "if (x) ;")]
    [InlineData("while (x) F();", "while (!(x)) F();", "while (x) ;")]
    [InlineData("n = x ? a : b;", "n = !(x) ? a : b;", ";")]
    [InlineData("n += 7;", "n -= 7;", "n += 8;", ";")]
    [InlineData("n++;", "n--;", ";")]
    [InlineData("n = 60;", "n = 120;", ";")]
    [InlineData("return;", ";")]
    public void In_a_statement_its_condition_is_negated_or_it_is_left_out(string statement, params string[] expected)
    {
        string[] made = Bodies($"void M() {{ {statement} }}", "{ ", " }");
        Assert.Equal(expected.Order(StringComparer.Ordinal), made.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("bool M() { return x; }", "!(x)")]
    [InlineData("int M() { return n; }", "default!")]
    [InlineData("int P => n;", "default!")]
    public void A_method_gives_back_something_else(string member, string expected) =>
        Assert.Equal([expected], Of(member).Select(m => m.After));

    [Theory]
    [InlineData("void M() => throw new Exception();")]
    [InlineData("Reason M() => Reason.None;")]
    [InlineData("[Meaning(3)] int _n;")]
    [InlineData("string _s = $\"{n + 1}\";")]
    public void What_would_be_the_same_or_is_only_text_is_left_alone(string member) => Assert.Empty(Of(member));

    [Fact]
    public void A_mutation_says_where_it_is_and_changes_nothing_else()
    {
        const string text = "class C\n{\n    bool M() => a < b;\n}\n";
        Mutation mutation = Mutator.All("C.cs", CSharpSyntaxTree.ParseText(text, cancellationToken: TestContext.Current.CancellationToken)).First(m => m.After == ">=");
        Assert.Equal("C.cs:3 comparison turned: < -> >=", mutation.ToString());
        Assert.Equal("bool M() => a < b;", mutation.Source);
        Assert.Equal(text.Replace("a < b", "a >= b", StringComparison.Ordinal), mutation.Apply(text));
    }

    private static Mutation[] Of(string member) => [.. Mutator.All("C.cs", CSharpSyntaxTree.ParseText(Around(member), cancellationToken: TestContext.Current.CancellationToken))];

    private static string[] Bodies(string member, string begin, string end) => [.. Of(member).Select(m =>
    {
        string changed = m.Apply(Around(member))["class C { ".Length..^" }".Length];
        return changed[(changed.IndexOf(begin, StringComparison.Ordinal) + begin.Length)..^end.Length];
    })];

    private static string Around(string member) => $"class C {{ {member} }}";
}
