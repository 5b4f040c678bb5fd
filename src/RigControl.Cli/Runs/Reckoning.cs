using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Cli.Loading;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Runs;

/// <summary>Computes the figures that a procedure names from what was recorded, never from what was only seen in passing.</summary>
internal static class Reckoning
{
    public static IReadOnlyList<Figure> Figures(LogbookFile book, RunHeader header, RigDocuments documents, IReadOnlyDictionary<string, Calibration> calibrations)
    {
        RigEvent[] events = [.. book.Events(header.Run)];
        FigureInput input = new(TraceOf(book, header, events), documents.Article, FigureContext.RestSpeedOf(documents.Procedure))
        {
            Answers = RecordedAnswers.Of(events, documents.Procedure),
            // The builder's own ceilings are what a time to a limit is asked for.
            TemperatureLimits = TemperatureCeilings.Of(documents.Rig),
            Asked = AskedFor.InProcedure(documents.ProcedureText.Text),
        };
        return CalibratedFigures.Compute(documents.Procedure.Figures, input, calibrations, header.StartedAt);
    }

    /// <summary>A recorded run's samples and repeats.</summary>
    public static Trace TraceOf(LogbookFile book, RunHeader header, IEnumerable<RigEvent> events)
    {
        TraceBuilder builder = new(header.Channels);
        for (int device = 0; device < header.Devices.Count; device++)
        {
            foreach (var sample in book.Samples(header.Run, device))
                builder.Add(sample);
        }

        foreach (RigEvent entered in events.Where(e => e.Name == EventNames.StateEntered))
            builder.Enter(entered.At.TotalSeconds, entered.Subject);
        return builder.Build();
    }
}
