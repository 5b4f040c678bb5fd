using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;

namespace RigControl.Mutants.Changing;

/// <summary>Finds every place in a file where one of the usual mistakes can be made. Texts and attributes are left alone: nothing is decided by them.</summary>
public static class Mutator
{
    /// <param name="file">From the root of the checkout.</param>
    /// <param name="tree">Its syntax.</param>
    public static IEnumerable<Mutation> All(string file, SyntaxTree tree)
    {
        SourceText text = tree.GetText();
        foreach (SyntaxNode node in tree.GetRoot().DescendantNodes(n => n is not (AttributeListSyntax or InterpolatedStringExpressionSyntax)))
        {
            foreach (Change change in Of(node))
            {
                TextLine line = text.Lines.GetLineFromPosition(change.Span.Start);
                yield return new Mutation(file, change.Span, text.ToString(change.Span), change.After, change.Kind, line.LineNumber + 1, line.ToString().Trim());
            }
        }
    }

    private static IEnumerable<Change> Of(SyntaxNode node) => node switch
    {
        BinaryExpressionSyntax binary => Operators.Of(binary.OperatorToken),
        RelationalPatternSyntax pattern => Operators.Of(pattern.OperatorToken),
        AssignmentExpressionSyntax assignment => Operators.Of(assignment.OperatorToken),
        PostfixUnaryExpressionSyntax postfix => Operators.Of(postfix.OperatorToken),
        PrefixUnaryExpressionSyntax prefix => Operators.Of(prefix.OperatorToken),
        LiteralExpressionSyntax literal => Constants.Of(literal),
        IfStatementSyntax choice => [Negated(choice.Condition)],
        WhileStatementSyntax loop => [Negated(loop.Condition)],
        ConditionalExpressionSyntax choice => [Negated(choice.Condition)],
        WhenClauseSyntax clause => [Negated(clause.Condition)],
        ExpressionStatementSyntax or ContinueStatementSyntax or ReturnStatementSyntax { Expression: null } => [new Change(node.Span, ";", "statement removed")],
        ReturnStatementSyntax { Expression: { } value } => Returns.Of(value),
        ArrowExpressionClauseSyntax arrow => Returns.Of(arrow.Expression),
        _ => [],
    };

    private static Change Negated(ExpressionSyntax condition) => new(condition.Span, $"!({condition})", "condition negated");
}

/// <summary>What to write in place of a span, and what sort of mistake that is.</summary>
internal readonly record struct Change(TextSpan Span, string After, string Kind);
