using System.Collections.Concurrent;
using RigControl.Model.Procedures;
using RigControl.Physics;

namespace RigControl.Devices.SimulatedRig;

/// <summary>What a script's hands do on the bench, from any thread, one move after the other.</summary>
internal sealed class Hands
{
    private readonly ConcurrentQueue<HandMove> _moves = new();

    public void Do(HandMove move) => _moves.Enqueue(move);

    public void Follow(ref BenchFaults faults, Transmitter transmitter)
    {
        while (_moves.TryDequeue(out HandMove move))
            Do(move, ref faults, transmitter);
    }

    private static void Do(HandMove move, ref BenchFaults faults, Transmitter transmitter)
    {
        switch (move)
        {
            case HandMove.OpenLid: faults.LidForced = true; break;
            case HandMove.CloseLid: faults.LidForced = false; break;
            case HandMove.UnplugLid: faults.LidContactA = ContactFault.StuckOpen; break;
            case HandMove.PlugLid: faults.LidContactA = ContactFault.None; break;
            case HandMove.PullLid: faults.LidPulled = true; break;
            case HandMove.LetGoLid: faults.LidPulled = false; break;
            case HandMove.PressStop: faults.StopPressed = true; break;
            case HandMove.ReleaseStop: faults.StopPressed = false; break;
            case HandMove.RadioOff: faults.RadioLost = true; break;
            case HandMove.RadioOn: faults.RadioLost = false; break;
            case HandMove.StickOpen: transmitter.Push(true); break;
            case HandMove.StickAtStop: transmitter.Push(false); break;
        }
    }
}
