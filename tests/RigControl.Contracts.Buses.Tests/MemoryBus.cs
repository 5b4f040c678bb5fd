using System.Device.I2c;

namespace RigControl.Contracts.Buses.Tests;

/// <summary>A bus whose chips keep the bytes written to them, and which notes which thread touched it.</summary>
internal sealed class MemoryBus : I2cBus
{
    private readonly HashSet<int> _threads = [];

    public int Chips { get; private set; }

    /// <summary>Opened when the bus is closed, which its own thread does in its own time.</summary>
    public ManualResetEventSlim Closed { get; } = new();

    public int Transfers { get; private set; }

    /// <summary>Closed when a transfer is to hang.</summary>
    public ManualResetEventSlim Gate { get; } = new(true);

    /// <summary>Opened when a transfer has begun to wait at the gate.</summary>
    public ManualResetEventSlim Hanging { get; } = new();

    public Exception? Failure { get; set; }

    public IReadOnlyCollection<int> Threads => _threads;

    public override I2cDevice CreateDevice(int deviceAddress)
    {
        Touch();
        Chips++;
        return new MemoryChip(this, deviceAddress);
    }

    public override void RemoveDevice(int deviceAddress)
    {
        Touch();
        Chips--;
    }

    protected override void Dispose(bool disposing) => Closed.Set();

    private void Touch()
    {
        _threads.Add(Environment.CurrentManagedThreadId);
        if (!Gate.IsSet)
        {
            Hanging.Set();
            Gate.Wait();
        }

        if (Failure is not null)
            throw Failure;
    }

    private sealed class MemoryChip(MemoryBus bus, int address) : I2cDevice
    {
        private byte[] _memory = [];

        public override I2cConnectionSettings ConnectionSettings { get; } = new(1, address);

        public override void Read(Span<byte> buffer)
        {
            Count();
            _memory.AsSpan(0, buffer.Length).CopyTo(buffer);
        }

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            Count();
            _memory = buffer.ToArray();
        }

        public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
        {
            Write(writeBuffer);
            Read(readBuffer);
        }

        private void Count()
        {
            bus.Touch();
            bus.Transfers++;
        }
    }
}
