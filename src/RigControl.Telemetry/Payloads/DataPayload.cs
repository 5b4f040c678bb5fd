using System.Buffers;
using System.Text.Json;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Telemetry.Sampling;

namespace RigControl.Telemetry.Payloads;

/// <summary>A tenth of a second of every channel as lowest and highest values, with one writer that keeps its memory.</summary>
internal sealed class DataPayload(IReadOnlyList<Channel> channels, IReadOnlyList<string> interlocks, string run)
{
    // More digits than these no reading has; below them stand only those of binary fractions.
    private const int MostDigits = 9;

    private readonly JsonEncodedText[] _channels = [.. channels.Select(c => JsonEncodedText.Encode(c.Name))];
    private readonly int[] _digits = [.. channels.Select(c => DigitsOf(c.Declaration.Resolution))];
    private readonly ArrayBufferWriter<byte> _buffer = new(16 * 1024);

    /// <summary>The payload; valid until the next call.</summary>
    public ReadOnlyMemory<byte> Of(Block block, long session)
    {
        _buffer.ResetWrittenCount();
        using Utf8JsonWriter json = new(_buffer);
        json.WriteStartObject();
        json.WriteNumber("session", session);
        json.WriteString("run", run);
        json.WriteNumber("sequence", block.Sequence);
        json.WriteNumber("t0", Json.Seconds(block.Start));
        json.WriteNumber("dt", Json.Seconds(block.SlotTime));
        WriteValues(json, block);
        WriteQuality(json, block);
        WriteTightest(json, block);
        json.WriteEndObject();
        json.Flush();
        return _buffer.WrittenMemory;
    }

    private void WriteValues(Utf8JsonWriter json, Block block)
    {
        json.WriteStartObject("values");
        for (int channel = 0; channel < _channels.Length; channel++)
        {
            json.WriteStartObject(_channels[channel]);
            Write(json, "min", block.Lowest(channel), _digits[channel]);
            Write(json, "max", block.Highest(channel), _digits[channel]);
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    /// <summary>Decimals in which every multiple of a resolution can be written; -1 where they are too many.</summary>
    internal static int DigitsOf(double resolution)
    {
        for (int digits = 0; resolution > 0 && digits <= MostDigits; digits++)
        {
            double scaled = resolution * Math.Pow(10, digits);
            if (Math.Abs(scaled - Math.Round(scaled)) < 1e-12 * scaled)
                return digits;
        }

        return -1;
    }

    private static void Write(Utf8JsonWriter json, string name, ReadOnlySpan<double> values, int digits)
    {
        json.WriteStartArray(name);
        foreach (double value in values)
        {
            if (double.IsFinite(value))
                json.WriteNumberValue(digits < 0 ? value : Math.Round(value, digits));
            else
                json.WriteNullValue();
        }

        json.WriteEndArray();
    }

    private void WriteQuality(Utf8JsonWriter json, Block block)
    {
        json.WriteStartObject("quality");
        for (int channel = 0; channel < _channels.Length; channel++)
        {
            Quality quality = block.QualityOf(channel);
            if (quality != Quality.Good)
                json.WriteString(_channels[channel], quality == Quality.Bad ? "Bad" : "Uncertain");
        }

        json.WriteEndObject();
    }

    private void WriteTightest(Utf8JsonWriter json, Block block)
    {
        if (block.Tightest < 0)
            return;
        Demand demand = block.TightestDemand;
        json.WriteStartObject("tightest");
        json.WriteString("interlock", interlocks[block.Tightest]);
        json.WriteBoolean("objects", demand.Action != DemandAction.Proceed);
        json.WriteNumber("margin", (double?)demand.Margin);
        json.WriteEndObject();
    }
}
