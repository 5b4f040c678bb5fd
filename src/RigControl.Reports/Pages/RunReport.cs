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

    /// <summary>Sentences about what to mind besides what the report finds itself.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];
}

/// <summary>The least room of an interlock while the output was on.</summary>
/// <param name="Margin">Share of the limit: 1 far away, 0 at the limit, negative beyond.</param>
/// <param name="At">s.</param>
/// <param name="Channel">The channel that decided; empty where none did.</param>
public sealed record InterlockMargin(string Interlock, double Margin, double Value, double Limit, string Channel, string Unit, double At);
