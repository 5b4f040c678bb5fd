using System.Device.I2c;

namespace RigControl.Contracts.Buses;

/// <summary>A chip whose transfers run on the thread that owns its bus.</summary>
internal sealed class OwnedI2cDevice : I2cDevice
{
    private readonly OwnedBus _bus;
    private readonly int _address;
    private readonly Action _release;
    private I2cDevice? _chip;
    private bool _disposed;

    public OwnedI2cDevice(OwnedBus bus, int address, Action release)
    {
        (_bus, _address, _release) = (bus, address, release);
        _bus.Run(b => _chip = b.CreateDevice(address));
        ConnectionSettings = _chip!.ConnectionSettings;
    }

    public override I2cConnectionSettings ConnectionSettings { get; }

    // A buffer on the caller's stack cannot go to another thread; a copy can, and outlives a caller who gave up waiting.
    public override void Read(Span<byte> buffer)
    {
        byte[] read = new byte[buffer.Length];
        Run(chip => chip.Read(read));
        read.CopyTo(buffer);
    }

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        byte[] written = buffer.ToArray();
        Run(chip => chip.Write(written));
    }

    public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        byte[] written = writeBuffer.ToArray();
        byte[] read = new byte[readBuffer.Length];
        Run(chip => chip.WriteRead(written, read));
        read.CopyTo(readBuffer);
    }

    protected override void Dispose(bool disposing)
    {
        if (_disposed)
            return;
        _disposed = true;
        try
        {
            _bus.Run(bus => bus.RemoveDevice(_address));
        }
        finally
        {
            _release();
        }
    }

    private void Run(Action<I2cDevice> transfer)
    {
        ObjectDisposedException.ThrowIf(_disposed, this);
        _bus.Run(_ => transfer(_chip!));
    }
}
