using System.Net;
using System.Net.Sockets;

namespace RigControl.Telemetry.Tests.Support;

internal static class Ports
{
    /// <summary>A port that nobody listens at just now.</summary>
    public static int Free()
    {
        using Socket socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        socket.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        return ((IPEndPoint)socket.LocalEndPoint!).Port;
    }
}
