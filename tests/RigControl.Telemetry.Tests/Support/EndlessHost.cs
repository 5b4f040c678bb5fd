using System.Diagnostics;
using System.Globalization;
using RigControl.Model.Rig;
using RigControl.Telemetry.Links;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>A host in a process of its own, which publishes a tripped rig until it is killed.</summary>
internal static class EndlessHost
{
    public const string Option = "--endless-host";

    public static int Publish(string port, string folder)
    {
        using Published host = new(folder, new BrokerAddress { Host = "127.0.0.1", Port = int.Parse(port, CultureInfo.InvariantCulture) });
        host.Toy.Trip();
        while (true)
        {
            host.Toy.Tick(RigState.SafeStop, latched: 1);
            Thread.Sleep(5);
        }
    }

    public static Process Start(int port, string folder) => Process.Start(new ProcessStartInfo(Environment.ProcessPath!)
    {
        ArgumentList = { Option, port.ToString(CultureInfo.InvariantCulture), folder },
    })!;
}
