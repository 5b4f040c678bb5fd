using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Devices.RigBoard.Tests.Protocol;

public class Crc16Tests
{
    /// <summary>Check value of CRC-16/IBM-3740 in the CRC catalogue, as quoted in shared/board/protocol.md (from memory).</summary>
    [Fact]
    public void The_check_value_of_the_catalogue_comes_out() => Assert.Equal(0x29B1, Crc16.Of("123456789"u8));

    /// <summary>Worked example of shared/board/protocol.md.</summary>
    [Fact]
    public void The_worked_example_of_the_protocol_comes_out() => Assert.Equal(0xD9A8, Crc16.Of("reset 002A 5F2C "u8));
}
