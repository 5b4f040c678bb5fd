using System.Device.I2c;

namespace RigControl.Devices.I2cSensors.Tests.Emulation;

/// <summary>A chip at the level of its registers, on a bus that can be made to fail from its n-th transfer on.</summary>
internal abstract class EmulatedChip(int address) : I2cDevice
{
    private int _failAt = int.MaxValue;
    private int _failures;
    private Exception? _failure;

    public override I2cConnectionSettings ConnectionSettings { get; } = new(1, address);

    /// <summary>Transfers asked for, failed ones included.</summary>
    public int Transfers { get; private set; }

    public bool IsDisposed { get; private set; }

    public Exception? FailureOfDispose { get; set; }

    /// <summary>What the library says when nobody acknowledges.</summary>
    public static IOException NotAcknowledged => new("Error 121 performing I2C data transfer.");

    /// <summary>Lets the n-th transfer from now fail, and those after it up to <paramref name="count"/>.</summary>
    public void Fail(int n, int count = int.MaxValue, Exception? how = null) =>
        (_failAt, _failures, _failure) = (Transfers + n, count, how ?? NotAcknowledged);

    public void Recover() => _failAt = int.MaxValue;

    public override void Read(Span<byte> buffer)
    {
        Transfer();
        Answer(buffer);
    }

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        Transfer();
        Take(buffer);
    }

    public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        Transfer();
        Take(writeBuffer);
        Answer(readBuffer);
    }

    protected abstract void Take(ReadOnlySpan<byte> bytes);

    protected abstract void Answer(Span<byte> bytes);

    protected override void Dispose(bool disposing)
    {
        IsDisposed = true;
        if (FailureOfDispose is not null)
            throw FailureOfDispose;
    }

    private void Transfer()
    {
        Transfers++;
        if (Transfers >= _failAt && Transfers - _failAt < _failures)
            throw _failure!;
    }
}
