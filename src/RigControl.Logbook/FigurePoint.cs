namespace RigControl.Logbook;

/// <summary>A figure's value in one run: the mean of its repeats.</summary>
public sealed record FigurePoint(string Run, DateTimeOffset StartedAt, bool Simulated, double Value, string Unit);

/// <summary>A row of the table of all figures.</summary>
public sealed record FigureRow(RunSummary Run, Model.Records.Figure Figure);
