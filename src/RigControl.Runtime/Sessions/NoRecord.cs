using RigControl.Model.Records;

namespace RigControl.Runtime.Sessions;

/// <summary>Keeps nothing: for sessions that energise nothing and only look.</summary>
public sealed class NoRecord : IRunRecorder
{
    public void Append(RecordChunk chunk)
    {
    }

    public void Commit()
    {
    }

    public void Finish(RunEnd end, IReadOnlyList<Figure> figures)
    {
    }

    public void Dispose()
    {
    }
}
