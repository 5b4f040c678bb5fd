namespace RigControl.Devices.RigBoard.Serial;

/// <summary>A serial line: bytes in, bytes out. Used from one thread at a time. Whatever goes wrong is an exception.</summary>
internal interface ILine : IDisposable
{
    /// <summary>The bytes that have come. Waits a few milliseconds for the first one; 0 when none came.</summary>
    int Read(byte[] buffer);

    /// <summary>Sends <paramref name="count"/> bytes. Throws when they cannot be handed over in time.</summary>
    void Write(byte[] bytes, int count);

    /// <summary>Throws away what has come and was not read.</summary>
    void Discard();
}
