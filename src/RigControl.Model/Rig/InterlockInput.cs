using RigControl.Model.Signals;

namespace RigControl.Model.Rig;

/// <summary>All that an interlock may look at.</summary>
public readonly ref struct InterlockInput
{
    private readonly ref readonly InputImage _image;

    public InterlockInput(in InputImage image, TimeSpan now, RigState state, int step, TimeSpan timeInStep, double throttle, bool gate = false, bool unpowered = false)
    {
        _image = ref image;
        Now = now;
        State = state;
        Step = step;
        TimeInStep = timeInStep;
        Throttle = throttle;
        Gate = gate;
        Unpowered = unpowered;
    }

    /// <summary>The input image of this scan.</summary>
    public ref readonly InputImage Image => ref _image;

    /// <summary>Time of this scan, since the session's clock started.</summary>
    public TimeSpan Now { get; }

    public RigState State { get; }

    /// <summary>Place of the current step in the procedure.</summary>
    public int Step { get; }

    public TimeSpan TimeInStep { get; }

    /// <summary>Throttle demanded by the last scan, as a share.</summary>
    public double Throttle { get; }

    /// <summary>Whether the last scan let the receiver's pulse through, so that <see cref="Throttle"/> says nothing of the pulse.</summary>
    public bool Gate { get; }

    /// <summary>Whether the power is kept off on purpose, although the state is one with power.</summary>
    public bool Unpowered { get; }

    /// <summary>One channel's entry.</summary>
    public readonly ref readonly ImageEntry this[int channel] => ref _image[channel];
}
