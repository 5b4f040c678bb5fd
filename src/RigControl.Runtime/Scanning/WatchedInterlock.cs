using RigControl.Model.Rig;

namespace RigControl.Runtime.Scanning;

/// <summary>An interlock that says at the post when it is asked, so that one that hangs can be named.</summary>
internal sealed class WatchedInterlock(string id, IInterlock interlock, ScanPost post) : IInterlock
{
    private readonly string _name = "the interlock " + id;

    public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
    {
        post.Ask(_name);
        try
        {
            return interlock.Evaluate(input, ref memory);
        }
        finally
        {
            post.Answered();
        }
    }

    // Screens ask for explanations too, on threads of their own.
    public string Explain(in Demand demand)
    {
        if (!post.IsHere)
            return interlock.Explain(demand);
        post.Ask(_name);
        try
        {
            return interlock.Explain(demand);
        }
        finally
        {
            post.Answered();
        }
    }
}
