using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>
/// A tachometer that counted marks twice and missed others: a reading of twice or of half the speed, which stands until the next mark. The
/// figures stay those of the clean trace.
/// </summary>
public class FalseMarkTests
{
    private static readonly string[] Names = ["steady-speed", "peak-speed", "spin-up-time", "time-constant", "time-to-speed", "settling-time", "coast-down-time", "speed-after", "drag-constant", "peak-torque"];

    // In the rise, in the hold and in the run-down, none within a turn of another.
    private static readonly double[] Doubled = [1.75, 4.2, 8.1], Missed = [2.1, 4.6, 4.8, 11.3];

    private static readonly BenchRecord Disc = new(new BenchParameters(), until: 60);

    public static TheoryData<string> Figures => [.. Names];

    [Theory, MemberData(nameof(Figures))]
    public void Marks_counted_twice_or_missed_leave_a_figure_within_its_uncertainty(string name)
    {
        (Figure clean, Figure marred) = (Of(name, []), Of(name, [.. Doubled.Select(t => (t, 2.0)), .. Missed.Select(t => (t, 0.5))]));
        Assert.True(clean.Value is not null && marred.Value is not null, $"{clean.Note}; {marred.Note}");
        Near.Absolute(clean.Value.Value, marred.Value.Value, 2 * Measured.Combine(clean.StandardUncertainty!.Value, marred.StandardUncertainty!.Value), name);
        // Turns in a row share their marks and are known well together; each row that a false mark breaks has ends of its own, which are not.
        Assert.InRange(marred.StandardUncertainty.Value / clean.StandardUncertainty.Value, 0.5, 3);
    }

    [Fact]
    public void The_figure_says_how_many_readings_were_left_out_and_why()
    {
        string note = Of("steady-speed", [.. Doubled.Select(t => (t, 2.0)), .. Missed.Select(t => (t, 0.5))]).Note!;
        Assert.Contains("3 readings left out, of twice the speed around them: a mark counted twice", note, StringComparison.Ordinal);
        Assert.Contains("4 readings left out, of half the speed around them: a mark missed", note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_single_false_mark_is_told_as_one() => Assert.Contains("1 reading left out, of twice the speed", Of("steady-speed", [(4.2, 2)]).Note, StringComparison.Ordinal);

    [Fact]
    public void A_clean_trace_leaves_nothing_out() => Assert.DoesNotContain("left out", Of("steady-speed", []).Note ?? "", StringComparison.Ordinal);

    /// <summary>Without the filter a doubled mark would be the peak: what the test would not see if it spoiled nothing.</summary>
    [Fact]
    public void The_false_readings_are_in_the_trace() => Assert.True(Marred([(4.2, 2)]).Values.Max() > 1.9 * Marred([]).Values.Max() * 0.99);

    private static Figure Of(string name, (double At, double Times)[] marks)
    {
        FigureInput input = Disc.Input(new AskedAt { After = 2, ToSpeed = 3000 });
        Dictionary<string, Series> channels = new(input.Trace.Channels) { ["rotor.speed"] = Marred(marks) };
        return FigureCatalog.Compute([name], input with { Trace = input.Trace with { Channels = channels } }).Single();
    }

    // The reading that is fresh at the moment is another one, for as long as it is repeated.
    private static Series Marred((double At, double Times)[] marks)
    {
        Series clean = Disc.Channels()["rotor.speed"];
        double[] values = [.. clean.Values];
        foreach ((double at, double times) in marks)
        {
            int first = Array.FindIndex(clean.Times, t => t >= at), end = first;
            while (first > 0 && clean.Values[first - 1] == clean.Values[first])
                first--;
            while (end < values.Length && clean.Values[end] == clean.Values[first])
                values[end++] = Math.Round(10 * times * clean.Values[first]) / 10;
            for (int i = first; i < end; i++)
                values[i] = Math.Round(10 * times * clean.Values[first]) / 10;
        }

        return clean with { Values = values };
    }
}
