namespace RigControl.Model.Records;

/// <summary>
/// Where a run is written. Synchronous and used by one thread; throws <see cref="StorageException"/> when the record
/// cannot be kept.
/// </summary>
public interface IRunRecorder : IDisposable
{
    /// <summary>Appends a chunk; it is safe only after <see cref="Commit"/>.</summary>
    void Append(RecordChunk chunk);

    /// <summary>Makes everything appended so far survive a killed process.</summary>
    void Commit();

    /// <summary>Writes figures and end, and commits. A run without an end shows as broken off.</summary>
    void Finish(RunEnd end, IReadOnlyList<Figure> figures);
}

/// <summary>The record cannot be kept or read. The message is a sentence that a person can act on.</summary>
public sealed class StorageException : Exception
{
    public StorageException(string message) : base(message) { }

    public StorageException(string message, Exception cause) : base(message, cause) { }
}
