using System.Text;
using CsCheck;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;

namespace RigControl.Devices.RigBoard.Tests.Protocol;

public class LineReaderTests
{
    private static readonly byte[] Good = BoardDouble.Compose("ok 0003 002A reset ");

    [Fact]
    public void A_good_line_comes_out_without_its_check()
    {
        LineReader reader = Ready();
        Assert.Equal(["ok 0003 002A reset"], Lines(reader, Good));
        Assert.Equal(Good.Length, reader.SentLength);
    }

    [Fact]
    public void The_end_of_a_line_begun_before_the_start_is_no_line_and_no_fault()
    {
        LineReader reader = new();
        Assert.Equal(["ok 0003 002A reset"], Lines(reader, [.. Good[7..], .. Good]));
        Assert.Equal(0, reader.Spoilt);
    }

    [Fact]
    public void A_flipped_bit_anywhere_spoils_the_line_and_only_that_line()
    {
        for (int bit = 0; bit < (Good.Length - 1) * 8; bit++)
        {
            byte[] flipped = [.. Good];
            flipped[bit / 8] ^= (byte)(1 << bit % 8);
            LineReader reader = Ready();
            Assert.Equal(["ok 0003 002A reset"], Lines(reader, [.. flipped, .. Good]).TakeLast(1));
            Assert.True(Lines(Ready(), flipped).Count == 0, $"bit {bit} was not noticed");
        }
    }

    [Fact]
    public void A_torn_line_takes_the_next_one_with_it_and_no_more()
    {
        LineReader reader = Ready();
        Assert.Equal(["ok 0003 002A reset"], Lines(reader, [.. Good[..9], .. Good, .. Good]));
        Assert.Equal(1, reader.Spoilt);
    }

    [Fact]
    public void A_line_that_never_ends_is_dropped_at_the_longest_length()
    {
        LineReader reader = Ready();
        Assert.Empty(Lines(reader, [.. Enumerable.Repeat((byte)'x', 100_000)]));
        Assert.Equal(1, reader.Spoilt);
        Assert.Single(Lines(reader, [(byte)'\n', .. Good]));
    }

    [Fact]
    public void The_longest_permitted_line_is_taken_and_one_byte_more_is_not()
    {
        byte[] longest = BoardDouble.Compose("now " + new string('1', 200 - 4 - 7) + " ");
        Assert.Equal(200, longest.Length);
        Assert.Single(Lines(Ready(), longest));
        Assert.Empty(Lines(Ready(), BoardDouble.Compose("now " + new string('1', 201 - 4 - 7) + " ")));
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("#0000\n")]
    [InlineData(" #1D0F\n")]
    [InlineData("now 0001\n")]
    [InlineData("now 0001 #29b1\n")]
    public void What_is_hardly_a_line_is_none(string text) => Assert.Empty(Lines(Ready(), Encoding.ASCII.GetBytes(text)));

    [Fact]
    public void A_carriage_return_spoils_a_line()
    {
        byte[] line = [.. Good[..^1], (byte)'\r', (byte)'\n'];
        Assert.Empty(Lines(Ready(), line));
    }

    [Fact]
    public void Whatever_noise_comes_the_line_after_the_next_line_feed_is_read() =>
        Gen.Byte.Array[0, 600].Sample(
            noise =>
            {
                LineReader reader = Ready();
                List<string> lines = Lines(reader, [.. noise, (byte)'\n', .. Good]);
                return lines.Count == 1 && lines[0] == "ok 0003 002A reset";
            },
            seed: "0000KeXZQq03", iter: 20_000);

    [Fact]
    public void Nearly_good_lines_by_the_thousand_never_pass_and_never_throw()
    {
        Random chance = new(20_240_501);
        LineReader reader = Ready();
        int passed = 0;
        for (int i = 0; i < 50_000; i++)
        {
            byte[] line = [.. Good];
            for (int wrong = chance.Next(1, 4); wrong > 0; wrong--)
                line[chance.Next(line.Length)] = (byte)chance.Next(256);
            passed += Lines(reader, line).Count(l => l != "ok 0003 002A reset");
        }

        // A CRC of 16 bits lets one in 65536 arbitrary lines pass; changes of a few bytes far fewer. Seed 20240501.
        Assert.InRange(passed, 0, 2);
        Assert.Single(Lines(reader, [(byte)'\n', .. Good]));
    }

    private static LineReader Ready()
    {
        LineReader reader = new();
        reader.Add((byte)'\n');
        return reader;
    }

    private static List<string> Lines(LineReader reader, byte[] bytes)
    {
        List<string> lines = [];
        foreach (byte b in bytes)
        {
            if (reader.Add(b))
                lines.Add(Encoding.ASCII.GetString(reader.Line));
        }

        return lines;
    }
}
