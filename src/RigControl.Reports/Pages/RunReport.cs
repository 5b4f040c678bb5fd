using RigControl.Model.Records;
using RigControl.Reports.Plots;

namespace RigControl.Reports.Pages;

/// <summary>Everything that a report of one run shows.</summary>
/// <param name="Outcome">In a word.</param>
public sealed record RunReport(RunHeader Header, string Outcome, RunEnd? End)
{
    public IReadOnlyList<Figure> Figures { get; init; } = [];

    public IReadOnlyList<RigEvent> Events { get; init; } = [];

    public IReadOnlyList<Remark> Remarks { get; init; } = [];

    public IReadOnlyList<string> Tags { get; init; } = [];

    public IReadOnlyList<Attachment> Files { get; init; } = [];

    /// <summary>The least room that each interlock had; empty where it is not known.</summary>
    public IReadOnlyList<InterlockMargin> Margins { get; init; } = [];

    public IReadOnlyList<Panel> Panels { get; init; } = [];

    /// <summary>What the run verified of the failsafe; null where it was no verification.</summary>
    public VerificationReport? Verification { get; init; }

    /// <summary>Sentences about what to mind besides what the report finds itself.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];
}

/// <summary>What a verification of the failsafe came to.</summary>
/// <param name="Proof">In a sentence; null where there is no proof.</param>
/// <param name="Steps">Name, what was expected or seen, time and what it might take in s where it was measured, and whether it passed.</param>
public sealed record VerificationReport(string? Proof, IReadOnlyList<(string Name, string What, double? Reaction, double? Allowed, bool Passed)> Steps)
{
    /// <summary>What was not provoked, each with why.</summary>
    public IReadOnlyList<string> NotProvoked { get; init; } = [];
}

/// <summary>The least room of an interlock while the output was on.</summary>
/// <param name="Margin">Share of the limit: 1 far away, 0 at the limit, negative beyond.</param>
/// <param name="Text">What it said then, with value and limit.</param>
/// <param name="At">s.</param>
public sealed record InterlockMargin(string Interlock, double Margin, string Text, double At);
