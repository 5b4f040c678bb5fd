using RigControl.Model.Rig;
using RigControl.Model.Records;

namespace RigControl.Runtime.Sessions;

/// <summary>The demands of the scan that is replayed next, as they were recorded.</summary>
internal sealed class RecordedDemands
{
    private Demands _demands;

    public Demand this[int place] => _demands[place];

    public void Take(in Demands demands) => _demands = demands;
}

/// <summary>Stands for an interlock whose code is not at hand any more, and asks for what it was recorded to ask for.</summary>
/// <param name="place">Place among the demands.</param>
internal sealed class RecordedInterlock(int place, RecordedDemands demands) : IInterlock
{
    public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory) => demands[place];

    public string Explain(in Demand demand) => "";
}
