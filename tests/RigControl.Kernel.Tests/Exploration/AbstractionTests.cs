namespace RigControl.Kernel.Tests.Exploration;

/// <summary>That the exploration looks where it says: states taken for one behave as one, and a planted defect is found.</summary>
public class AbstractionTests(ITestOutputHelper output)
{
    private static readonly World Small = World.Linked;

    public static TheoryData<string> Names() => [.. World.All.Select(w => w.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void States_that_are_taken_for_one_behave_as_one(string name)
    {
        World world = World.All.Single(w => w.Name == name);
        Stepper stepper = new(world);
        Random random = new(7);
        Node start = new() { Wire = world.IsLinked ? Wire.Opened : default };
        Node raw = start, merged = start;
        InputImage image = default;
        ScanRecord here = default, there = default;
        int drove = 0;
        for (int i = 0; i < 400_000; i++)
        {
            // A verification that failed goes nowhere any more.
            if (i % 400 == 0)
                (raw, merged) = (start, start);
            Move move = Walk.Next(world, raw.Kernel, random);
            // Before its first scan a rig has no time that could go back.
            move = raw.Kernel.Scan == 0 ? move with { Pace = Pace.OnTime } : move;
            stepper.Step(ref raw, move, ref image, ref here);
            stepper.Step(ref merged, move, ref image, ref there);
            Assert.Equal(Said(here), Said(there));
            Canonical.Merge(world.Configuration, ref merged.Kernel);
            drove += here.Outputs.Drives ? 1 : 0;
        }

        output.WriteLine($"{name}: 400000 scans side by side, {drove} of them with the output live");
        Assert.True(drove > 500, $"the walk drove in {drove} scans only");
    }

    [Fact]
    public void A_planted_defect_is_found_with_the_shortest_way_to_it_in_words()
    {
        Explorer explorer = new(Small, (ref record) =>
        {
            if (record is { State: RigState.CoastDown })
                record.Outputs.Throttle = 0.1;
        });

        explorer.Run();

        Assert.StartsWith("outputs live only in the states that are there for them: broken in CoastDown by", explorer.Broken);
        string[] way = explorer.Broken!.Split('\n')[1..];
        Assert.Contains("Reset by Bench -> Idle, step 1", string.Join('\n', way));
        Assert.Contains("Start by Bench -> Arming Warning, step 1", string.Join('\n', way));
        // The start, two scans to a stand, reset, arm, the controller's time, the start, the ends of the warning, the rise and its ramp.
        Assert.InRange(way.Length, 8, 13);
        output.WriteLine(explorer.Broken);
    }

    // What an observer sees of a scan. The hash is of what was merged, and the time of the scan is its own.
    private static (RigState, ArmingPhase, Trigger, OutputImage, TripCause, TripCause, uint, uint, int, int, bool, bool, bool) Said(in ScanRecord record) =>
        (record.State, record.Phase, record.Fired, record.Outputs, record.Causes, record.NewCauses, record.Latched, record.NewlyLatched, record.Step, record.Repeat, record.Finished, record.AtStandstill, record.AwaitsLook);
}
