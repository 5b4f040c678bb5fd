using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace RigControl.Mutants.Changing;

/// <summary>Mistakes in an operator.</summary>
internal static class Operators
{
    private const string Turned = "comparison turned";
    private const string Moved = "comparison moved by one";
    private const string Logic = "and for or";
    private const string Arithmetic = "arithmetic turned";

    private static readonly Dictionary<SyntaxKind, (string After, string Kind)[]> Mistakes = new()
    {
        [SyntaxKind.LessThanToken] = [(">=", Turned), ("<=", Moved)],
        [SyntaxKind.LessThanEqualsToken] = [(">", Turned), ("<", Moved)],
        [SyntaxKind.GreaterThanToken] = [("<=", Turned), (">=", Moved)],
        [SyntaxKind.GreaterThanEqualsToken] = [("<", Turned), (">", Moved)],
        [SyntaxKind.EqualsEqualsToken] = [("!=", Turned)],
        [SyntaxKind.ExclamationEqualsToken] = [("==", Turned)],
        [SyntaxKind.AmpersandAmpersandToken] = [("||", Logic)],
        [SyntaxKind.BarBarToken] = [("&&", Logic)],
        [SyntaxKind.PlusToken] = [("-", Arithmetic)],
        [SyntaxKind.MinusToken] = [("+", Arithmetic)],
        [SyntaxKind.AsteriskToken] = [("/", Arithmetic)],
        [SyntaxKind.SlashToken] = [("*", Arithmetic)],
        [SyntaxKind.PlusEqualsToken] = [("-=", Arithmetic)],
        [SyntaxKind.MinusEqualsToken] = [("+=", Arithmetic)],
        [SyntaxKind.PlusPlusToken] = [("--", Arithmetic)],
        [SyntaxKind.MinusMinusToken] = [("++", Arithmetic)],
    };

    public static IEnumerable<Change> Of(SyntaxToken token) => Mistakes.TryGetValue(token.Kind(), out (string After, string Kind)[]? mistakes)
        ? mistakes.Select(m => new Change(token.Span, m.After, m.Kind))
        : [];
}
