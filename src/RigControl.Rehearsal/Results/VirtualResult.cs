using RigControl.Model.Records;

namespace RigControl.Rehearsal.Results;

/// <summary>What stopped a sample.</summary>
/// <param name="Interlock">Its id, or the name of the kernel's own cause.</param>
/// <param name="Reason">A sentence with value and limit.</param>
/// <param name="Step">Place in the procedure.</param>
/// <param name="At">Since the start of the run.</param>
internal sealed record VirtualTrip(string Interlock, string Reason, int Step, TimeSpan At);

/// <summary>One sample of a rehearsal.</summary>
/// <param name="Completed">Whether the procedure was done.</param>
/// <param name="Trip">What stopped it, or null.</param>
/// <param name="Margins">Smallest margin of each interlock while anything was energised; infinite where it never was.</param>
/// <param name="Tightest">What the interlock said there, where it was close.</param>
/// <param name="Fastest">rad/s.</param>
/// <param name="Energy">Most energy in the rotor, J.</param>
/// <param name="Current">Highest pack current, A.</param>
/// <param name="Length">Of the run.</param>
internal sealed record VirtualResult(
    bool Completed, VirtualTrip? Trip, IReadOnlyList<double> Margins, IReadOnlyList<string?> Tightest, IReadOnlyList<Figure> Figures,
    double Fastest, double Energy, double Current, TimeSpan Length);
