using RigControl.Logbook.Blocks;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook.Tests.Blocks;

/// <summary>Samples must come back as they were, whatever they are.</summary>
public class SampleCodecTests
{
    private readonly SampleEncoder _encoder = new(SampleMaker.Steps);
    private readonly SampleDecoder _decoder = new(SampleMaker.Steps);
    private readonly SampleBuffer _back = new();

    [Fact]
    public void Any_samples_in_any_order_come_back_bit_for_bit() =>
        Seeds.Each(500, random => ComesBack(SampleMaker.Any(random, random.Next(600))));

    [Fact]
    public void Nothing_comes_back_as_nothing() => ComesBack([]);

    [Fact]
    public void The_payload_of_a_NaN_comes_back() =>
        ComesBack([Of(1, BitConverter.UInt64BitsToDouble(0x7FF8_0000_0000_1234)), Of(1, BitConverter.UInt64BitsToDouble(0xFFF0_0000_0000_0001)), Of(1, 0.1)]);

    [Fact]
    public void A_minus_zero_does_not_lose_its_sign() => ComesBack([Of(0, -0.0), Of(0, 0.0), Of(0, -0.0), Of(3, -0.0)]);

    [Fact]
    public void A_value_between_two_steps_of_its_channel_is_not_rounded() =>
        ComesBack([Of(1, 0.3), Of(1, 3 * 0.1), Of(1, 0.35), Of(1, Math.BitIncrement(0.1)), Of(1, 0.1)]);

    [Fact]
    public void Values_at_the_ends_of_the_range_come_back() =>
        ComesBack([Of(0, double.MaxValue), Of(0, double.MinValue), Of(0, 1L << 53), Of(0, -(1L << 53)), Of(0, 9.3e18), Of(6, 1e300), Of(5, 1e300)]);

    [Fact]
    public void Times_that_leap_over_the_whole_range_come_back() =>
        ComesBack([new(0, Quality.Good, TimeSpan.MinValue, 1), new(1, Quality.Good, TimeSpan.MaxValue, 1), new(0, Quality.Good, TimeSpan.MinValue, 1), new(0, Quality.Good, TimeSpan.Zero, 1)]);

    [Fact]
    public void A_channel_that_goes_bad_and_good_again_comes_back_so() =>
        ComesBack([Of(0, 1), Of(0, 2, Quality.Bad), Of(0, 3, Quality.Bad), Of(0, 4, Quality.Uncertain), Of(0, 5)]);

    [Fact]
    public void The_last_channel_there_can_be_comes_back() => ComesBack([Of(65535, 1), Of(0, 1), Of(65535, 2), Of(65535, 3)]);

    [Fact]
    public void A_block_needs_no_other_block()
    {
        Sample[] first = SampleMaker.Any(new Random(1), 300), second = SampleMaker.Any(new Random(2), 300);
        _encoder.Encode(first);
        byte[] after = _encoder.Encode(second).ToArray();
        byte[] alone = new SampleEncoder(SampleMaker.Steps).Encode(second).ToArray();
        Assert.Equal(alone, after);
    }

    [Theory]
    [InlineData(16, 250, 3)]
    [InlineData(16, 250, 60)]
    [InlineData(1, 256, 400)]
    public void A_noisy_twelve_bit_sensor_takes_at_most_two_bytes_a_sample(int channels, int frames, double noise)
    {
        Sample[] samples = SampleMaker.TwelveBit(new Random(3), channels, frames, noise);
        ReadingStep[] steps = [.. Enumerable.Repeat(new ReadingStep(SampleMaker.TwelveBitResolution), channels)];
        Assert.InRange((double)new SampleEncoder(steps).Encode(samples).Length / samples.Length, 1.0, 2.0);
    }

    [Fact]
    public void A_channel_that_stands_still_takes_one_byte_a_sample_with_and_without_a_resolution()
    {
        Sample[] samples = [.. Enumerable.Range(0, 2000).Select(i => new Sample((ushort)(i % 2 * 3), Quality.Good, TimeSpan.FromMilliseconds(i / 2), 1 / 3.0))];
        samples = [.. samples.Select(sample => sample.Channel == 0 ? sample with { Value = 7 } : sample)];
        Assert.InRange(_encoder.Encode(samples).Length, 2000, 2060);
    }

    [Fact]
    public void A_block_of_nonsense_is_called_damaged_or_read_and_nothing_else_happens() => Seeds.Each(1000, random =>
    {
        byte[] block = _encoder.Encode(SampleMaker.Any(random, random.Next(1, 60))).ToArray();
        Damage.Sealed(random, ref block);
        try
        {
            _decoder.Decode(block, _back);
        }
        catch (InvalidDataException)
        {
            return;
        }
        Assert.InRange(_back.Count, 0, block.Length);
    });

    [Fact]
    public void Every_changed_byte_is_called_damage()
    {
        byte[] block = _encoder.Encode(SampleMaker.Any(new Random(5), 50)).ToArray();
        for (int at = 0; at < block.Length; at++)
        {
            block[at] ^= 0x10;
            Assert.Throws<InvalidDataException>(() => _decoder.Decode(block, _back));
            block[at] ^= 0x10;
        }
    }

    [Fact]
    public void Every_shortened_block_is_called_damaged()
    {
        byte[] block = _encoder.Encode(SampleMaker.Any(new Random(4), 50)).ToArray();
        for (int length = 0; length < block.Length - BlockSeal.Length; length++)
        {
            Damage.Reseal(block.AsSpan(0, length), out byte[] shortened);
            Assert.Throws<InvalidDataException>(() => _decoder.Decode(shortened, _back));
        }
    }

    [Fact]
    public void A_block_of_a_later_kind_is_refused_by_its_version()
    {
        byte[] block = _encoder.Encode([Of(0, 1)]).ToArray();
        block[0] = SampleEncoder.Version + 1;
        Damage.Reseal(block.AsSpan(0, block.Length - BlockSeal.Length), out block);
        InvalidDataException fault = Assert.Throws<InvalidDataException>(() => _decoder.Decode(block, _back));
        Assert.Contains($"version {SampleEncoder.Version + 1}", fault.Message, StringComparison.Ordinal);
    }

    private static Sample Of(ushort channel, double value, Quality quality = Quality.Good) => new(channel, quality, TimeSpan.FromSeconds(1), value);

    private void ComesBack(Sample[] samples)
    {
        _decoder.Decode(_encoder.Encode(samples).ToArray(), _back);
        Assert.Equal(samples.Select(SampleMaker.Bits), _back.Samples.ToArray().Select(SampleMaker.Bits));
    }
}
