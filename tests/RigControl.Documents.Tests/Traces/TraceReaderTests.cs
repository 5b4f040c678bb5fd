using CsCheck;
using RigControl.Documents.Traces;

namespace RigControl.Documents.Tests.Traces;

public class TraceReaderTests
{
    [Fact]
    public void Every_channel_has_its_samples_in_the_canonical_unit()
    {
        RecordedTrace trace = Read("time [s],rotor.speed [rad/s],motor.temperature [degF],battery.current [mA]\r\n0,100,68,1500\r\n0.01,,,\r\n0.02,200,212,-20\r\n").Value!;
        Assert.Equal(["rpm", "degC", "A"], trace.Channels.Select(c => c.Unit));
        Assert.Equal([0, 0.02], trace.Channels[0].Times);
        Assert.Equal(100 * 30 / Math.PI, trace.Channels[0].Values[0], 8);
        Assert.Equal([20, 100], trace.Channels[1].Values, (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.Equal([1.5, -0.02], trace.Channels[2].Values);
    }

    [Theory]
    [InlineData("", 1, 1, "empty")]
    [InlineData("t,rotor.speed [rpm]\n0,1\n", 1, 1, "time [s]")]
    [InlineData("0,100\n1,200\n", 1, 1, "time [s]")]
    [InlineData("time [s],rotor.speed\n0,1\n", 1, 2, "name [unit]")]
    [InlineData("time [s],rotor.speed [furlongs]\n0,1\n", 1, 2, "furlongs")]
    [InlineData("time [s],a [V],a [V]\n0,1,2\n", 1, 3, "both `a`")]
    [InlineData("time [s],a [V],time [s]\n0,1,2\n", 1, 3, "second column")]
    [InlineData("time [s],a [V]\n", 2, 1, "no rows")]
    [InlineData("time [s],a [V]\n0,1\n0,2\n", 3, 1, "does not rise")]
    [InlineData("time [s],a [V]\n0,1\n1,2\n0.5,3\n", 4, 1, "does not rise")]
    [InlineData("time [s],a [V]\n0,1\n1,abc\n", 3, 2, "`abc`")]
    [InlineData("time [s],a [V]\n0,1\n1,NaN\n", 3, 2, "not a number")]
    [InlineData("time [s],a [V]\n0,1\n1,Infinity\n", 3, 2, "not a number")]
    [InlineData("time [s],a [V]\n0,1\n1,1e999\n", 3, 2, "not a number")]
    [InlineData("time [s],a [V]\n0,1\n1,\"1,5\"\n", 3, 2, "not a number")]
    [InlineData("time [s],a [V]\n0,1\n,2\n", 3, 1, "the time is not a number")]
    [InlineData("time [s],a [V]\n0,1\n1,2,3\n", 3, 2, "3 cells")]
    [InlineData("time [s],a [V],b [V]\n0,1,2\n1,2\n", 3, 2, "2 cells")]
    [InlineData("time [s],a [V]\n0,1\n1,2\"3\n", 3, 1, "quotation mark")]
    public void A_trace_that_lies_is_refused_with_row_and_column(string text, int row, int column, string what)
    {
        Problem problem = Assert.Single(Read(text).Problems);
        Assert.Null(Read(text).Value);
        Assert.Equal((row, column), (problem.Line, problem.Column));
        Assert.Contains(what, problem.What, StringComparison.Ordinal);
        Assert.NotEmpty(problem.Remedy);
    }

    [Fact]
    public void A_unit_that_is_nearly_right_is_put_right() =>
        Assert.Contains("rpm", Assert.Single(Read("time [s],a [RPM]\n0,1\n").Problems).Remedy, StringComparison.Ordinal);

    [Fact]
    public void A_cell_without_end_is_refused() =>
        Assert.Contains("longer than", Assert.Single(Read("time [s],a [V]\n0," + new string('1', 100_000) + "\n").Problems).What, StringComparison.Ordinal);

    [Fact]
    public void Columns_without_number_are_refused() =>
        Assert.Contains("columns", Assert.Single(Read("time [s]" + string.Concat(Enumerable.Range(0, 1000).Select(i => $",c{i} [V]")) + "\n").Problems).What, StringComparison.Ordinal);

    [Fact]
    public void A_text_longer_than_a_trace_may_be_ends_the_reading() =>
        Assert.Throws<TooLongException>(() => new BoundedReader(new StringReader(new string('x', 101)), 100).ReadToEnd());

    [Fact]
    public void No_text_at_all_makes_the_reader_throw() => Gen.Char["time [s],\n\r\"0123456789.-eE[]aV\0 \t;µ"].Array[0, 80].Sample(characters =>
    {
        Reading<RecordedTrace> reading = Read("time [s],a [V]\n0,1\n" + new string(characters));
        Assert.True(reading.Value is null != (reading.Problems.Count == 0));
    }, iter: 2000, seed: "0N0XIzNsQ0O2");

    private static Reading<RecordedTrace> Read(string text) => TraceReader.Read(new StringReader(text), "trace.csv");
}
