using RigControl.Contracts;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Serial;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Serial;

/// <summary>Through System.IO.Ports on a real pseudo-terminal. Nothing here is judged by the wall clock: time is what the board has lived.</summary>
public class SerialLineTests
{
    private const int Enough = 2000;

    public SerialLineTests() => Assert.SkipUnless(OperatingSystem.IsLinux(), "pseudo-terminals are had from Linux only");

    [Fact]
    public void A_board_is_opened_armed_driven_and_stopped_over_a_serial_port()
    {
        using LivingBoard living = new();
        using IDevice device = Open(living);
        SampleList samples = new(device.Channels);
        Until(living, device, samples, Session.Stop, () => living.Board.Pulse == 1000);
        Until(living, device, samples, Session.Armed, () => living.Board.Power);
        Until(living, device, samples, Session.Warning, () => samples.All.Count > 0);
        Until(living, device, samples, Session.Driven, () => living.Board.Pulse == 1500);
        Until(living, device, samples, Session.Driven, () => samples.Last("output.throttle").Value == 50);
        Until(living, device, samples, Session.Stop, () => living.Board is { Pulse: 1000, Power: false });
        Assert.Equal(1, living.Board.Resets);
        Assert.Equal(0, living.Board.SpoiltLines);
    }

    [Fact]
    public void A_port_that_was_closed_can_be_opened_again()
    {
        using LivingBoard living = new();
        for (int i = 0; i < 3; i++)
        {
            using IDevice device = Open(living);
            Until(living, device, new SampleList(device.Channels), Session.Stop, () => living.Board.Pulse == 1000);
        }
    }

    [Fact]
    public void A_second_host_on_the_same_port_is_refused_by_whatever_link_it_names_it()
    {
        using LivingBoard living = new();
        string link = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        File.CreateSymbolicLink(link, living.Terminal.Name);
        try
        {
            using IDevice device = Open(living);
            foreach (string name in new[] { living.Terminal.Name, link })
                Assert.Contains($"the serial port {name} is in use", Assert.Throws<DeviceException>(() => SerialLine.Open(name)).Message, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(link);
        }
    }

    [Fact]
    public void A_cable_pulled_in_a_run_ends_in_a_sentence_that_names_the_port()
    {
        using LivingBoard living = new();
        using IDevice device = Open(living);
        SampleList samples = new(device.Channels);
        Until(living, device, samples, Session.Stop, () => living.Board.Pulse == 1000);
        living.Unplug();
        string told = Assert.Throws<DeviceException>(() => Until(living, device, samples, Session.Stop, () => false)).Message;
        Assert.Contains($"the board on {living.Terminal.Name}", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_port_that_is_not_there_is_told_with_those_that_are()
    {
        string told = Assert.Throws<DeviceException>(() => SerialLine.Open("/dev/ttyNONE7")).Message;
        Assert.StartsWith("there is no serial port /dev/ttyNONE7; ", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_no_port_is_told_and_its_lock_is_given_back()
    {
        string file = Path.GetTempFileName();
        try
        {
            for (int i = 0; i < 2; i++)
                Assert.Contains(file, Assert.Throws<DeviceException>(() => SerialLine.Open(file)).Message, StringComparison.Ordinal);
            PortLock.Take(file).Dispose();
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public void The_plugin_opens_a_board_from_a_rig_files_options()
    {
        using LivingBoard living = new();
        RigBoardOptions options = Workshop.Options();
        options.Port = living.Terminal.Name;
        IDevicePlugin plugin = new RigBoardPlugin();
        using IDevice device = living.WhileFree(() => plugin.Open(options, Workshop.Context(living.Time)));
        Assert.Equal("rig-board", plugin.Kind);
        Assert.Equal("bench-1", device.Identity["board"]);
    }

    private static RigBoardDevice Open(LivingBoard living)
    {
        RigBoardOptions options = Workshop.Options();
        options.Port = living.Terminal.Name;
        return living.WhileFree(() => RigBoardDevice.Open(
            SerialLine.Open(options.Port), options, ConfigurationOfRig.Build(options, Workshop.Disc), Workshop.Context(living.Time)));
    }

    // As the host's device thread does it, until something is so.
    private static void Until(LivingBoard living, IDevice device, SampleList samples, OutputImage outputs, Func<bool> reached)
    {
        for (int call = 0; call < Enough && !reached(); call++)
        {
            device.Apply(living.Time.Now, outputs);
            living.Grant(5);
            device.Read(living.Time.Now, samples);
        }

        Assert.True(reached(), $"waited for {Enough} calls in vain");
    }
}
