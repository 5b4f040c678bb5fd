using System.Collections.Concurrent;
using System.Device.I2c;

namespace RigControl.Contracts.Buses;

/// <summary>
/// A bus and the one thread that touches it, since the library's objects are not made for several. A transfer that
/// hangs holds up this thread alone: whoever waits for it is let go after a deadline.
/// </summary>
internal sealed class OwnedBus : IDisposable
{
    // As many as sixteen sensors with four transfers each; more means that the bus hangs, and waiting would only hide it.
    private const int MostWaiting = 64;

    private readonly BlockingCollection<Transfer> _waiting = new(MostWaiting);
    private readonly int _number;
    private readonly I2cBus _bus;
    private readonly Func<TimeSpan> _deadline;

    public OwnedBus(int number, I2cBus bus, Func<TimeSpan> deadline)
    {
        (_number, _bus, _deadline) = (number, bus, deadline);
        new Thread(Serve) { IsBackground = true, Name = $"I2C bus {number}" }.Start();
    }

    /// <summary>Runs work on the bus's thread and returns when it is done; what it throws is thrown here.</summary>
    /// <exception cref="TimeoutException">The bus is stuck; the work is dropped if it has not begun.</exception>
    public void Run(Action<I2cBus> work)
    {
        Transfer transfer = new(work);
        TimeSpan deadline = _deadline();
        if (!_waiting.TryAdd(transfer, deadline) || !transfer.WaitFor(deadline))
            throw new TimeoutException($"I2C bus {_number} did not finish a transfer within {deadline.TotalMilliseconds:0} ms; the bus is stuck.");
    }

    /// <summary>Ends the thread after what is already waiting. A stuck one is left behind.</summary>
    public void Dispose() => _waiting.CompleteAdding();

    private void Serve()
    {
        foreach (Transfer transfer in _waiting.GetConsumingEnumerable())
            transfer.Do(_bus);
        _bus.Dispose();
    }
}
