using System.Globalization;
using System.Text;
using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Fuzzing.Targets;

/// <summary>
/// Bytes from a serial line, as the host reads them. Nothing makes the reader fail; only lines whose check is right come out; and
/// whatever came before, the line after the next line feed is read as it was sent.
/// </summary>
public sealed class FrameTarget : ITarget
{
    private static readonly byte[] Sound = Framed("now 0002 1000 ABCD 011A idle 0000 000F 00 0 0 0 0 0 9999999 1023 0 0 1023 0 0 1023 0 0 1023 0 0 0 0 0001 00000000 0");

    public string Name => "frames";

    public IReadOnlyList<byte[]> Corpus { get; } =
    [
        Sound,
        Framed("hello 0001 1 1.2.0 rigboard 89ABCDEF power-on good good 0000"),
        Framed("now 5F2C 2147483647 ABCD 011A spin 0004 09AF 07 1500 1498 65535 6700 6650 1200 400 4051 420 500 5123 530 300 3105 320 310 3205 330 9 1520 002B 01020304 1700"),
        Framed("ok 0001"),
        Framed("no 0002 busy"),
        Framed("event lid 0003 12345"),
    ];

    public void Take(byte[] input)
    {
        LineReader reader = new();
        foreach (byte next in input)
        {
            if (reader.Add(next))
                Read(reader.Line);
        }

        reader.Add((byte)'\n');
        int good = 0;
        foreach (byte next in Sound)
        {
            if (reader.Add(next) && reader.Line.SequenceEqual(Sound.AsSpan(0, reader.SentLength - 7)))
                good++;
        }

        if (good != 1)
            throw new BrokenPromiseException("the line after the next line feed was not read");
    }

    private static void Read(ReadOnlySpan<byte> line)
    {
        foreach (byte character in line)
        {
            if (character is < 0x20 or > 0x7E)
                throw new BrokenPromiseException($"the character {character} came through");
        }

        LineFields fields = new(line);
        ReadOnlySpan<byte> word = fields.Text();
        if (word.SequenceEqual("now"u8) && BoardStatus.TryRead(fields, out BoardStatus status))
            Promise(status);
        BoardHello.Read(fields);
    }

    private static void Promise(in BoardStatus status)
    {
        foreach (Reading reading in new[] { status.Voltage, status.Current, status.Thermistor1, status.Thermistor2 })
        {
            if (reading.Taken && (!double.IsFinite(reading.Mean) || reading.Lowest > Reading.End || reading.Highest > Reading.End))
                throw new BrokenPromiseException($"{reading} is no reading of a converter of ten bits");
        }
    }

    private static byte[] Framed(string content)
    {
        byte[] checkedPart = Encoding.ASCII.GetBytes(content + " ");
        return [.. checkedPart, .. Encoding.ASCII.GetBytes("#" + Crc16.Of(checkedPart).ToString("X4", CultureInfo.InvariantCulture)), (byte)'\n'];
    }
}
