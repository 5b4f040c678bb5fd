using System.Text;
using CsCheck;
using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Devices.RigBoard.Tests.Protocol;

public class LineFieldsTests
{
    [Theory]
    [InlineData("0", 0)]
    [InlineData("1", 1)]
    [InlineData("2147483647", 2147483647)]
    public void A_decimal_is_read(string text, uint value)
    {
        LineFields fields = new(Encoding.ASCII.GetBytes(text));
        Assert.Equal(value, fields.Decimal(int.MaxValue));
        Assert.True(fields.Complete);
    }

    [Theory]
    [InlineData("")]
    [InlineData("01")]
    [InlineData("-1")]
    [InlineData("+1")]
    [InlineData("1.5")]
    [InlineData("2147483648")]
    [InlineData("99999999999999999999")]
    [InlineData("12a")]
    public void What_is_no_decimal_in_range_spoils_the_line_and_counts_as_0(string text)
    {
        LineFields fields = new(Encoding.ASCII.GetBytes(text));
        Assert.Equal(0u, fields.Decimal(int.MaxValue));
        Assert.True(fields.Malformed);
    }

    [Theory]
    [InlineData("00FF", true)]
    [InlineData("00ff", false)]
    [InlineData("0FF", false)]
    [InlineData("000FF", false)]
    [InlineData("0x0F", false)]
    public void Hexadecimal_is_upper_case_and_of_its_width(string text, bool good)
    {
        LineFields fields = new(Encoding.ASCII.GetBytes(text));
        uint value = fields.Hex(4);
        Assert.Equal(good, fields.Complete);
        Assert.Equal(good ? 0xFFu : 0, good ? value : 0);
    }

    [Fact]
    public void Two_spaces_a_field_too_few_and_a_field_too_many_are_each_noticed()
    {
        Assert.False(IsTwo("1  2"));
        Assert.False(IsTwo("1"));
        Assert.False(IsTwo("1 2 3"));
        Assert.False(IsTwo("1 2 "));
        Assert.True(IsTwo("1 2"));
    }

    [Fact]
    public void Nothing_that_is_read_throws() => Gen.Char[' ', '~'].Array[0, 200].Sample(
        letters =>
        {
            LineFields fields = new(Encoding.ASCII.GetBytes(letters));
            _ = BoardStatus.TryRead(fields, out _);
            _ = BoardHello.Read(fields);
            return fields.Decimal(10) <= 10;
        },
        seed: "0000KeXZQq03", iter: 20_000);

    private static bool IsTwo(string text)
    {
        LineFields fields = new(Encoding.ASCII.GetBytes(text));
        fields.Decimal(9);
        fields.Decimal(9);
        return fields.Complete;
    }
}
