using System.Globalization;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace RigControl.Mutants.Changing;

/// <summary>A constant that is another one: a small number one more, a large one or a fraction twice as much.</summary>
internal static class Constants
{
    private const int Large = 10;

    public static IEnumerable<Change> Of(LiteralExpressionSyntax literal)
    {
        string? other = (literal.Kind(), literal.Token.Value) switch
        {
            (SyntaxKind.TrueLiteralExpression, _) => "false",
            (SyntaxKind.FalseLiteralExpression, _) => "true",
            (SyntaxKind.NumericLiteralExpression, int whole) => (whole > Large ? 2 * whole : whole + 1).ToString(CultureInfo.InvariantCulture),
            (SyntaxKind.NumericLiteralExpression, uint bits) => (bits + 1).ToString(CultureInfo.InvariantCulture) + "u",
            (SyntaxKind.NumericLiteralExpression, double number and not 0) => (2 * number).ToString("R", CultureInfo.InvariantCulture),
            _ => null,
        };
        return other is null ? [] : [new Change(literal.Span, other, "constant changed")];
    }
}
