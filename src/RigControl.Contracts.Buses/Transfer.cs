using System.Device.I2c;
using System.Runtime.ExceptionServices;

namespace RigControl.Contracts.Buses;

/// <summary>One piece of work for a bus's thread, and the meeting point with the one who waits for it.</summary>
internal sealed class Transfer(Action<I2cBus> work)
{
    private readonly ManualResetEventSlim _done = new();
    private volatile bool _abandoned;
    private ExceptionDispatchInfo? _failure;

    /// <summary>On the bus's thread. Never throws: a failure belongs to the one who waits.</summary>
    public void Do(I2cBus bus)
    {
        if (_abandoned)
            return;
        try
        {
            work(bus);
        }
#pragma warning disable CA1031 // Whatever it is, it is thrown again where somebody asked for the work.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            _failure = ExceptionDispatchInfo.Capture(failure);
        }

        _done.Set();
    }

    /// <summary>On the waiting thread. False when the deadline passed; the work is then not begun any more.</summary>
    public bool WaitFor(TimeSpan deadline)
    {
        if (!_done.Wait(deadline))
        {
            _abandoned = true;
            return false;
        }

        _failure?.Throw();
        return true;
    }
}
