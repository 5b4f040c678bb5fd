using System.Text;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;

namespace RigControl.Devices.RigBoard.Tests.Protocol;

public class LineWriterTests
{
    [Fact]
    public void A_reset_reads_as_in_the_protocols_example()
    {
        LineWriter writer = new();
        writer.Begin("reset"u8, 0x2A).Hex(0x5F2C).End();
        Assert.Equal("reset 002A 5F2C #D9A8\n", Written(writer));
    }

    [Fact]
    public void A_configuration_reads_as_in_the_protocols_example_and_has_its_digest()
    {
        BoardConfiguration example = new()
        {
            StopPulse = 1000, LeastPulse = 1000, GreatestPulse = 2000, ArmingPulse = 1000, Rate = 400, PulsesPerRevolution = 2,
            ShortestRevolution = 3000, LowestCurrent = 100, HighestCurrent = 900, CurrentReadings = 4, TachometerLost = 300,
            TachometerFrom = 100, ContactorTime = 100, LidDisagreement = 50, ClosingFilter = 20, Ceases = false,
        };
        LineWriter writer = new();
        writer.Begin("load"u8, 2).Decimal(1).Text(Encoding.ASCII.GetBytes(example.Text)).End();
        Assert.Equal("load 0002 1 1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 stop none #21EF\n", Written(writer));
        Assert.Equal(0x891D, example.Digest);
    }

    [Fact]
    public void The_longest_configuration_fits_the_boards_longest_line()
    {
        RigBoardOptions options = Workshop.Options();
        options.OverSpeed = 15;
        options.TachometerLostAfter = 10;
        options.OverCurrentFor = 0.05;
        (options.ContactorTime, options.LidDisagreement, options.ClosingFilter) = (0.5, 0.5, 0.2);
        options.OnTrip = TripOutput.NoPulses;
        options.PulsesPerRevolution = 16;
        LineWriter writer = new();
        writer.Begin("load"u8, ushort.MaxValue).Decimal(1)
            .Text(Encoding.ASCII.GetBytes(ConfigurationOfRig.Build(options, Workshop.Disc).Text)).End();
        Assert.InRange(writer.Length, 80, LineWriter.Longest);
        Assert.EndsWith("\n", Written(writer));
    }

    [Fact]
    public void Every_line_begins_afresh()
    {
        LineWriter writer = new();
        writer.Begin("drive"u8, 1).Hex(2).Hex(3).Decimal(1500).Flag(true).Flag(false).Flag(true).End();
        writer.Begin("hello"u8, 0xFFFF).Decimal(1).End();
        Assert.StartsWith("hello FFFF 1 #", Written(writer));
    }

    private static string Written(LineWriter writer) => Encoding.ASCII.GetString(writer.Bytes, 0, writer.Length);
}
