using RigControl.Contracts;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Double;

/// <summary>A device on a board double, called as the host's device thread calls it: Apply and Read in turn.</summary>
internal sealed class Session : IDisposable
{
    public static readonly OutputImage Stop = new() { Pulse = 1000 };
    public static readonly OutputImage Armed = new() { Pulse = 1000, Switches = OutputSwitches.Power | OutputSwitches.OperatorArms };
    public static readonly OutputImage Powered = new() { Pulse = 1000, Switches = OutputSwitches.Power };
    public static readonly OutputImage Warning = new() { Pulse = 1000, Switches = OutputSwitches.Power | OutputSwitches.Warning };
    public static readonly OutputImage Driven = new() { Throttle = 0.5, Pulse = 1500, Switches = OutputSwitches.Power };
    public static readonly OutputImage Unlocked = new() { Pulse = 1000, Switches = OutputSwitches.Unlocked };

    public Session(RigBoardOptions? options = null, Action<BoardDouble, LineDouble>? before = null)
    {
        Line = new LineDouble(Board, Time);
        before?.Invoke(Board, Line);
        Device = Workshop.Open(Line, Time, options);
        Samples = new SampleList(Device.Channels);
    }

    public ManualTime Time { get; } = new();

    public BoardDouble Board { get; } = new();

    public LineDouble Line { get; }

    public RigBoardDevice Device { get; }

    public SampleList Samples { get; }

    /// <summary>Runs under the same outputs for a time.</summary>
    public void Run(OutputImage outputs, int milliseconds = 100)
    {
        TimeSpan end = Time.Now + TimeSpan.FromMilliseconds(milliseconds);
        while (Time.Now < end)
        {
            Device.Apply(Time.Now, outputs);
            Device.Read(Time.Now, Samples);
        }
    }

    /// <summary>Runs until the device fails, and returns its sentence.</summary>
    public string RunToFailure(OutputImage outputs, int milliseconds = 5000) =>
        Assert.Throws<DeviceException>(() => Run(outputs, milliseconds)).Message;

    /// <summary>From the start through arming and warning to a driven output.</summary>
    public void SpinUp()
    {
        Run(Stop);
        Run(Armed);
        Run(Warning);
        Board.Tachometer = "100 12000 12000 1000";
        Run(Driven);
        Assert.Equal((1500, true, BoardCauses.None), (Board.Pulse, Board.Power, Board.Latched));
    }

    /// <summary>Output at stop, then power off, as after a hold.</summary>
    public void CoastDown()
    {
        Run(Powered);
        Run(Stop);
    }

    public void Dispose() => Device.Dispose();
}
