using System.Globalization;

namespace RigControl.Campaigns;

/// <summary>What a campaign has found so far. Any thread may add.</summary>
public sealed class Summary
{
    private readonly Lock _lock = new();
    private readonly long[] _runsWith = new long[Enum.GetValues<FaultKind>().Length];
    private readonly long[] _drivenWith = new long[Enum.GetValues<FaultKind>().Length];
    private readonly long[] _tripsWith = new long[Enum.GetValues<FaultKind>().Length];
    private readonly long[] _latched = new long[32];

    /// <summary>Seeds run.</summary>
    public long Runs { get; private set; }

    /// <summary>Runs that left safe-stop; the others prove nothing.</summary>
    public long Counted { get; private set; }

    /// <summary>Runs that held a level at least once.</summary>
    public long Held { get; private set; }

    /// <summary>Time of the bench in all runs, s.</summary>
    public double Length { get; private set; }

    /// <summary>Trips in all runs.</summary>
    public long Trips { get; private set; }

    /// <summary>Broken promises.</summary>
    public long Violations { get; private set; }

    /// <summary>Runs with a kind of fault.</summary>
    public long RunsWith(FaultKind kind) => _runsWith[(int)kind];

    /// <summary>Of them, those in which it was on while the motor was driven.</summary>
    public long DrivenWith(FaultKind kind) => _drivenWith[(int)kind];

    /// <summary>Of them, those that tripped.</summary>
    public long TrippedWith(FaultKind kind) => _tripsWith[(int)kind];

    /// <summary>Runs in which an interlock latched, by its place in the rig.</summary>
    public long LatchedBy(int interlock) => _latched[interlock];

    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Runs} runs, {Counted} left safe-stop, {Held} held a level, {Trips} trips, {Length / 3600:0} h of the bench, {Violations} violations");

    internal void Add(Scenario scenario, CampaignResult result)
    {
        lock (_lock)
        {
            Runs++;
            Counted += result.LeftSafeStop ? 1 : 0;
            Held += result.Held ? 1 : 0;
            Length += result.Length;
            Trips += result.Trips;
            Violations += result.Broken.Count;
            foreach (IGrouping<FaultKind, int> places in Enumerable.Range(0, scenario.Faults.Length).GroupBy(i => scenario.Faults[i].Kind))
            {
                _runsWith[(int)places.Key]++;
                _drivenWith[(int)places.Key] += places.Any(i => (result.CameDriven >> i & 1) != 0) ? 1 : 0;
                _tripsWith[(int)places.Key] += result.Trips > 0 ? 1 : 0;
            }

            for (int i = 0; i < _latched.Length; i++)
                _latched[i] += (result.Latched >> i) & 1;
        }
    }
}
