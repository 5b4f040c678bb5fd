using System.Text;
using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Devices.RigBoard.Tests.Protocol;

public class BoardStatusTests
{
    private const string Line = "5F2C 2147483647 ABCD 011A spin 0004 09AF 07 1500 1498 65535 6700 6650 1200 "
        + "400 4051 420 500 5123 530 300 3105 320 310 3205 330 9 1520 002B 01020304 1700";

    [Fact]
    public void Every_field_of_a_status_lands_in_its_place()
    {
        Assert.True(Read(Line, out BoardStatus status));
        Assert.Equal((0x5F2C, 2147483647u, 0xABCD, 0x011A), ((int)status.Sequence, status.Time, (int)status.Nonce, (int)status.Digest));
        Assert.Equal((BoardMode.Spin, BoardCauses.Lid, 7), (status.Mode, status.Latched, (int)status.Closings));
        Assert.Equal((1500, 1498, 65535), ((int)status.Demanded, (int)status.Measured, (int)status.Pulses));
        Assert.Equal((6700u, 6650u, 1200u), (status.Period, status.Shortest, status.Age));
        Assert.Equal(new Reading(400, 405.1, 420), status.Voltage);
        Assert.Equal(new Reading(500, 512.3, 530), status.Current);
        Assert.Equal(new Reading(300, 310.5, 320), status.Thermistor1);
        Assert.Equal(new Reading(310, 320.5, 330), status.Thermistor2);
        Assert.Equal((9, 1520, 0x2B, 0x01020304u), ((int)status.Wires, (int)status.Receiver, (int)status.Accepted, status.Errors));
        Assert.Equal(1700, status.Second);
    }

    [Theory]
    [InlineData(0x001, "LidContactA")]
    [InlineData(0x002, "LidContactB")]
    [InlineData(0x004, "BoltHome")]
    [InlineData(0x008, "StopClear")]
    [InlineData(0x010, "KeyClosed")]
    [InlineData(0x020, "ContactorClosed")]
    [InlineData(0x040, "Receiver")]
    [InlineData(0x080, "KeyFresh")]
    [InlineData(0x100, "PowerOn")]
    [InlineData(0x200, "LockReleased")]
    [InlineData(0x400, "MarkerOn")]
    [InlineData(0x800, "PulsesRunning")]
    [InlineData(0x1000, "GateOpen")]
    public void Every_bit_has_the_protocols_meaning(int bits, string name)
    {
        Assert.True(Read(Line.Replace("09AF", bits.ToString("X4"), StringComparison.Ordinal), out BoardStatus status));
        Assert.True(status.Has(Enum.Parse<BoardBits>(name)));
        Assert.Equal(name, status.Bits.ToString());
    }

    [Fact]
    public void A_status_with_any_field_missing_or_changed_in_kind_is_refused()
    {
        string[] fields = Line.Split(' ');
        for (int i = 0; i < fields.Length; i++)
        {
            Assert.False(Read(string.Join(' ', fields.Where((_, at) => at != i)), out _), $"field {i} is missing");
            Assert.False(Read(string.Join(' ', fields.Select((f, at) => at == i ? "?" : f)), out _), $"field {i} is wrong");
        }

        Assert.False(Read(Line + " 0", out _));
    }

    [Fact]
    public void A_mode_that_this_version_does_not_know_spoils_the_line() =>
        Assert.False(Read(Line.Replace("spin", "turbo", StringComparison.Ordinal), out _));

    [Fact]
    public void The_empty_reading_of_the_board_is_no_reading()
    {
        Assert.True(Read(Line.Replace("400 4051 420", "1023 0 0", StringComparison.Ordinal), out BoardStatus status));
        Assert.False(status.Voltage.Taken);
        Assert.True(status.Current.Taken);
    }

    [Fact]
    public void Causes_are_told_in_words_and_an_unknown_one_by_its_number()
    {
        Assert.Equal("the lid opened, over-current", (BoardCauses.Lid | BoardCauses.Current).InWords());
        Assert.Equal("cause 15", ((BoardCauses)0x8000).InWords());
        Assert.Equal("nothing", BoardCauses.None.InWords());
    }

    [Fact]
    public void Line_numbers_follow_across_their_wrap_and_never_themselves()
    {
        Assert.True(Numbering.Follows(0, 0xFFFF));
        Assert.True(Numbering.Follows(0x7FFF, 0));
        Assert.False(Numbering.Follows(0x8000, 0));
        Assert.False(Numbering.Follows(5, 5));
        Assert.False(Numbering.Follows(0xFFFF, 0));
    }

    private static bool Read(string line, out BoardStatus status) =>
        BoardStatus.TryRead(new LineFields(Encoding.ASCII.GetBytes(line)), out status);
}
