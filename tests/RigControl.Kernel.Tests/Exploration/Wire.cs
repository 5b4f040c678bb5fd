namespace RigControl.Kernel.Tests.Exploration;

/// <summary>What the link does with the frame of a scan, and what else happens at its other end.</summary>
internal enum LinkFate
{
    Whole,
    AnswerLost,
    FrameLost,
    BothLost,
    FrameLate,
    FrameLateAnswerLost,
    BoardRestarts,
    HostRestarts,
}

/// <summary>What the host says in one frame. Reset says stop without power, and asks for the board's latch.</summary>
internal enum Frame : byte
{
    None,
    Stop,
    Power,
    Drive,
    Reset,
}

/// <summary>
/// A board behind a line, and what the host knows of it: the board's rules in the abstract, a scan a step. An answer that comes late is one
/// that was lost and an old one that still counts.
/// </summary>
internal struct Wire
{
    /// <summary>Scans without a frame after which the board stops by itself, and without an answer after which the device gives up.</summary>
    public const int Silence = 2;

    /// <summary>Longest that anything is live at the board after the kernel ended it: a frame late, then one lost.</summary>
    public const int LongestEcho = 2;

    public byte SilentFor;
    public bool IsLoaded;
    public bool IsLatched;
    public bool HasPulse;
    public bool HasPower;
    public Frame OnTheWay;
    public byte AnswerAge;
    public bool SaysLatched;
    public bool SaysShut;
    public bool IsGivenUp;

    /// <summary>Scans since the kernel last drove and last powered.</summary>
    public byte SinceDriven;

    public byte SincePowered;

    /// <summary>A rig at its start: the board was loaded, and every board starts latched.</summary>
    public static Wire Opened => new() { IsLoaded = true, IsLatched = true, SaysLatched = true, SaysShut = true, SinceDriven = LongestEcho + 1, SincePowered = LongestEcho + 1 };

    /// <summary>What the host's device makes of the scan's outputs.</summary>
    public readonly Frame FrameOf(in OutputImage outputs)
    {
        if (IsGivenUp)
            return Frame.None;
        if (outputs.OperatorArms && outputs.Power && SaysLatched)
            return Frame.Reset;
        return outputs.Drives ? Frame.Drive : outputs.Power ? Frame.Power : Frame.Stop;
    }

    /// <summary>The other end of one scan: the frame goes out, the board acts on what comes, and answers.</summary>
    public void Follow(in OutputImage outputs, Move move)
    {
        SinceDriven = outputs.Drives ? (byte)0 : (byte)Math.Min(SinceDriven + 1, LongestEcho + 1);
        SincePowered = outputs.Power ? (byte)0 : (byte)Math.Min(SincePowered + 1, LongestEcho + 1);
        Act(Delivered(FrameOf(outputs), move.Link), move);
        Hear(move);
    }

    /// <summary>A host begun anew loads the board; one that still drives refuses that, and the device gives up.</summary>
    public void Reopen()
    {
        (IsGivenUp, AnswerAge, OnTheWay) = (HasPulse || HasPower, 0, Frame.None);
        if (IsGivenUp)
            return;
        (IsLoaded, IsLatched, SaysLatched) = (true, true, true);
    }

    private Frame Delivered(Frame sent, LinkFate fate)
    {
        Frame late = OnTheWay;
        OnTheWay = Frame.None;
        switch (fate)
        {
            case LinkFate.FrameLost or LinkFate.BothLost:
                return late;
            case LinkFate.FrameLate or LinkFate.FrameLateAnswerLost:
                OnTheWay = sent;
                return late;
            default:
                return sent == Frame.None ? late : sent;
        }
    }

    private void Act(Frame frame, Move move)
    {
        if (move.Link == LinkFate.BoardRestarts)
            (IsLoaded, IsLatched, SilentFor) = (false, true, Silence);
        else
            SilentFor = frame == Frame.None ? (byte)Math.Min(SilentFor + 1, Silence) : (byte)0;
        bool cause = !move.Shut || SilentFor >= Silence;
        if (cause)
            IsLatched = true;
        else if (frame == Frame.Reset && IsLoaded)
            IsLatched = false;
        if (frame != Frame.None)
            (HasPulse, HasPower) = (frame == Frame.Drive, frame is Frame.Drive or Frame.Power);
        if (IsLatched || !IsLoaded)
            (HasPulse, HasPower) = (false, false);
    }

    private void Hear(Move move)
    {
        if (move.Link is LinkFate.AnswerLost or LinkFate.BothLost or LinkFate.FrameLateAnswerLost)
            AnswerAge = (byte)Math.Min(AnswerAge + 1, Silence);
        else
            (AnswerAge, SaysLatched, SaysShut) = (0, IsLatched, move.Shut);
        // Another boot, or no answer for too long: out of service until the program is begun anew.
        if (AnswerAge >= Silence || (AnswerAge == 0 && !IsLoaded))
            (IsGivenUp, OnTheWay) = (true, Frame.None);
        if (IsGivenUp)
            (AnswerAge, SaysLatched, SaysShut) = (Silence, false, false);
    }
}
