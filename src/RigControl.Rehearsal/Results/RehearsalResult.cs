using RigControl.Model.Rig;

namespace RigControl.Rehearsal.Results;

/// <summary>What a run will be like, as far as the article's data tell.</summary>
/// <param name="Samples">Benches tried.</param>
/// <param name="Completed">Share of them on which the procedure was done, 0 to 1.</param>
/// <param name="Seconds">Median length of a run, s.</param>
/// <param name="Figures">What the run's figures will be.</param>
/// <param name="Margins">Interlock by interlock, the tightest first.</param>
/// <param name="Stops">What stopped samples, the most frequent first.</param>
/// <param name="Refusals">Why this should not be run, a sentence each; empty where nothing stands against it.</param>
/// <param name="Bands">Between which values the run will stay.</param>
/// <param name="Notes">What was not rehearsed, and what to mind.</param>
public sealed record RehearsalResult(
    int Samples, double Completed, double Seconds, IReadOnlyList<PredictedFigure> Figures, IReadOnlyList<PredictedMargin> Margins,
    IReadOnlyList<PredictedStop> Stops, IReadOnlyList<string> Refusals, IReadOnlyList<RehearsedBand> Bands, IReadOnlyList<string> Notes);

/// <summary>A figure of the run to come: the spread over the benches that may be the real one.</summary>
/// <param name="Repeat">From 1; 0 for the whole run.</param>
/// <param name="Median">In <paramref name="Unit"/>; null where no sample gave it.</param>
/// <param name="Interval95">From the 2.5th to the 97.5th percentile.</param>
/// <param name="Of">What the figure is of, where there are several of its name.</param>
/// <param name="Note">Why samples did not give it, or null.</param>
public sealed record PredictedFigure(string Name, string Unit, int Repeat, double? Median, (double Low, double High)? Interval95, string Of, string? Note);

/// <summary>How near an interlock comes to tripping.</summary>
/// <param name="Median">Smallest margin of a run as a share of the limit, median of the samples.</param>
/// <param name="Lowest">The same, lowest of all samples.</param>
/// <param name="Trips">Share of the samples that it stopped, 0 to 1.</param>
/// <param name="Closest">What it said at its closest, where that is close.</param>
public sealed record PredictedMargin(string Interlock, double Median, double Lowest, double Trips, string? Closest);

/// <summary>What stopped samples.</summary>
/// <param name="Step">Place in the procedure, from 1.</param>
/// <param name="Share">Of the samples, 0 to 1.</param>
/// <param name="Example">What it said in one of them.</param>
public sealed record PredictedStop(string Interlock, int Step, double Share, string Example);
