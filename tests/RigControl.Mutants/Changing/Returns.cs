using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace RigControl.Mutants.Changing;

/// <summary>A method that gives back something else: the opposite of a yes or no, the zero value of anything else.</summary>
internal static class Returns
{
    private const string Kind = "another value returned";

    public static IEnumerable<Change> Of(ExpressionSyntax value) => TypeAround(value) switch
    {
        null or "void" => [],
        "bool" => [new Change(value.Span, $"!({value})", Kind)],
        _ when IsZero(value) || value is RefExpressionSyntax or ThrowExpressionSyntax => [],
        _ => [new Change(value.Span, "default!", Kind)],
    };

    // The zero value of every type of ours is its None.
    private static bool IsZero(ExpressionSyntax value) => value.ToString() is "null" or "default" or "0" || value is MemberAccessExpressionSyntax { Name.Identifier.Text: "None" };

    // Of a getter the property's type; of a lambda nothing, since it does not say its own.
    private static string? TypeAround(ExpressionSyntax value) => value.Ancestors().Select(a => a switch
    {
        MethodDeclarationSyntax method => method.ReturnType.ToString(),
        PropertyDeclarationSyntax property => property.Type.ToString(),
        AccessorDeclarationSyntax { RawKind: (int)SyntaxKind.SetAccessorDeclaration } or ConstructorDeclarationSyntax => "void",
        LambdaExpressionSyntax => "void",
        _ => null,
    }).FirstOrDefault(t => t is not null);
}
