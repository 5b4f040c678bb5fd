using System.Net;
using System.Net.Sockets;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>The network between a host and its broker, which can be cut, or go silent as if it still stood.</summary>
internal sealed class Relay : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly List<TcpClient> _open = [];
    private readonly int _broker;
    private readonly CancellationTokenSource _ended = new();
    private volatile bool _closed;

    public Relay(int broker)
    {
        _broker = broker;
        _listener.Start();
        Port = ((IPEndPoint)_listener.LocalEndpoint).Port;
        _ = Task.Run(Accept);
    }

    public int Port { get; }

    /// <summary>Bytes from the host after which the link is cut, again and again until none is left; 0 cuts nothing.</summary>
    public long CutAfter { get; init; }

    /// <summary>How often it is cut; 1 if left alone.</summary>
    public int Cuts { get; init; } = 1;

    /// <summary>Connections that were made through it.</summary>
    public int Made { get; private set; }

    /// <summary>Takes bytes and passes none on, on the connections that stand now.</summary>
    public void GoSilent()
    {
        lock (_open)
            _silent.UnionWith(_open);
    }

    /// <summary>Reads nothing any more from the connections that stand now, until their senders' buffers are full.</summary>
    public void StopReading()
    {
        lock (_open)
            _deaf.UnionWith(_open);
    }

    /// <summary>Cuts what stands, and lets nothing new through.</summary>
    public void Close()
    {
        _closed = true;
        lock (_open)
        {
            _open.ForEach(c => c.Dispose());
            _open.Clear();
        }
    }

    public void Open() => _closed = false;

    public void Dispose()
    {
        _ended.Cancel();
        Close();
        _listener.Dispose();
    }

    private readonly HashSet<TcpClient> _silent = [];
    private readonly HashSet<TcpClient> _deaf = [];

    private async Task Accept()
    {
        while (true)
        {
            TcpClient host;
            try
            {
                host = await _listener.AcceptTcpClientAsync();
            }
            catch (Exception e) when (e is SocketException or ObjectDisposedException or InvalidOperationException)
            {
                return;
            }

            if (_closed)
                host.Dispose();
            else
                _ = Task.Run(() => Join(host));
        }
    }

    private async Task Join(TcpClient host)
    {
        TcpClient broker = new();
        try
        {
            await broker.ConnectAsync(IPAddress.Loopback, _broker);
        }
        catch (SocketException)
        {
            host.Dispose();
            return;
        }

        lock (_open)
        {
            _open.Add(host);
            _open.Add(broker);
            Made++;
        }

        long left = CutAfter > 0 && Made <= Cuts ? CutAfter : long.MaxValue;
        await Task.WhenAny(Carry(host, broker, left), Carry(broker, host, long.MaxValue));
        host.Dispose();
        broker.Dispose();
    }

    private async Task Carry(TcpClient from, TcpClient to, long left)
    {
        byte[] buffer = new byte[65536];
        try
        {
            while (left > 0 && await from.GetStream().ReadAsync(buffer) is > 0 and var read)
            {
                int count = (int)Math.Min(read, left);
                left -= count;
                (bool silent, bool deaf) = (false, false);
                lock (_open)
                    (silent, deaf) = (_silent.Contains(from), _deaf.Contains(from));
                if (deaf)
                    await Task.Delay(Timeout.Infinite, _ended.Token);
                if (!silent)
                    await to.GetStream().WriteAsync(buffer.AsMemory(0, count));
            }
        }
        catch (Exception e) when (e is IOException or ObjectDisposedException or InvalidOperationException or OperationCanceledException)
        {
            // One of the two is gone; so is the connection.
        }
    }
}
