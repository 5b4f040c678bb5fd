using RigControl.Devices.RigBoard.Tests.Double;

namespace RigControl.Devices.RigBoard.Tests.Serial;

/// <summary>
/// A board double behind a pseudo-terminal, on a thread of its own. It answers whenever it is spoken to, but lives only as
/// many milliseconds as the test grants, and its clock is the host's too: a busy machine makes the test slow and never wrong.
/// Only while it is being opened does it live by itself.
/// </summary>
internal sealed class LivingBoard : IDisposable
{
    private readonly Thread _thread;
    private volatile int _granted;
    private volatile bool _free;
    private volatile bool _ending;

    public LivingBoard()
    {
        Board.Write = line => Terminal.Send(line);
        _thread = new Thread(Live) { IsBackground = true, Name = "board double" };
        _thread.Start();
    }

    public PseudoTerminal Terminal { get; } = new();

    public BoardDouble Board { get; } = new();

    public ManualTime Time { get; } = new();

    /// <summary>Lets board and host live for some milliseconds, and waits until they have. Once the board is unplugged, time passes without it.</summary>
    public void Grant(int milliseconds)
    {
        if (_ending)
        {
            Time.Pass(TimeSpan.FromMilliseconds(milliseconds));
            return;
        }

        _granted = milliseconds;
        while (_granted > 0)
            Thread.Sleep(TimeSpan.FromMicroseconds(100));
    }

    /// <summary>Lets the board live by itself while something waits for its answers.</summary>
    public T WhileFree<T>(Func<T> wait)
    {
        _free = true;
        try
        {
            return wait();
        }
        finally
        {
            _free = false;
        }
    }

    /// <summary>Stops the board and pulls its cable.</summary>
    public void Unplug()
    {
        _ending = true;
        _thread.Join();
        Terminal.Unplug();
    }

    public void Dispose() => Unplug();

    private void Live()
    {
        while (!_ending)
        {
            Board.Hear(Terminal.Take());
            int granted = _granted;
            for (int lived = 0; lived < (_free ? 1 : granted); lived++)
            {
                Time.Pass(TimeSpan.FromMilliseconds(1));
                Board.Tick();
            }

            if (granted > 0)
                _granted = 0;
            Thread.Sleep(TimeSpan.FromMilliseconds(_free ? 1 : 0.2));
        }
    }
}
