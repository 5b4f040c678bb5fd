using System.Globalization;
using RigControl.Model.Signals;

namespace RigControl.Model.Tests;

/// <summary>How readings are rounded.</summary>
public class ReadingStepTests
{
    [Theory]
    [InlineData(0.1, 19.93, "19.9")]
    [InlineData(0.01, 0.287, "0.29")]
    [InlineData(0.001, -4.0355, "-4.036")]
    [InlineData(1, 2.4, "2")]
    [InlineData(20, 1234, "1240")]
    [InlineData(0, 19.93, "19.93")]
    public void A_reading_is_written_as_a_person_would_write_it(double step, double value, string written) =>
        Assert.Equal(written, new ReadingStep(step).Rounded(value).ToString("R", CultureInfo.InvariantCulture));

    [Fact]
    public void Every_count_of_a_tenth_is_the_decimal_number_itself()
    {
        ReadingStep tenth = new(0.1);
        for (int i = -100_000; i <= 100_000; i++)
            Assert.Equal(double.Parse($"{i}e-1", CultureInfo.InvariantCulture), tenth.ValueOf(i));
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.3)]
    [InlineData(60.0 / 4096)]
    [InlineData(1.0 / 3)]
    [InlineData(1e-9)]
    [InlineData(1e9)]
    public void What_is_rounded_once_stays_and_is_never_more_than_half_a_step_off(double size)
    {
        ReadingStep step = new(size);
        Random random = new(7);
        for (int i = 0; i < 20_000; i++)
        {
            double value = (random.NextDouble() - 0.5) * 1e5 * size;
            double rounded = step.Rounded(value);
            Assert.Equal(rounded, step.Rounded(rounded));
            Assert.InRange(Math.Abs(rounded - value), 0, size * 0.5 * (1 + 1e-9));
        }
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_step_that_is_none_keeps_the_value_as_it_came(double size) =>
        Assert.Equal((0, 1.0 / 7), (new ReadingStep(size).Size, new ReadingStep(size).Rounded(1.0 / 7)));
}
