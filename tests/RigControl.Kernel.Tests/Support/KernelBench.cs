namespace RigControl.Kernel.Tests.Support;

/// <summary>A kernel on a virtual clock whose readings, commands and interlocks the test decides. Starts at rest with the lid locked.</summary>
internal sealed class KernelBench
{
    private readonly string[] _channels;
    private InputImage _image;
    private KernelState _state;
    private ScanRecord _record;
    private long _commands;

    public KernelBench(RigBuilder rig)
    {
        _channels = [.. rig.ChannelList];
        Configuration = rig.Build();
        foreach (string channel in _channels)
            Read(channel, channel is ChannelNames.EnclosureLid or ChannelNames.EnclosureLock ? 1 : 0);
    }

    public KernelBench()
        : this(new RigBuilder())
    {
    }

    public Configuration Configuration { get; }

    /// <summary>Time of the next scan.</summary>
    public TimeSpan Now { get; set; }

    public ref KernelState State => ref _state;

    public ref readonly ScanRecord Record => ref _record;

    public ref InputImage Image => ref _image;

    public RigState Rig => _record.State;

    public OutputImage Outputs => _record.Outputs;

    /// <summary>Called after every scan.</summary>
    public Action? OnScan { get; set; }

    /// <summary>From now on the channel reads this value, Good.</summary>
    public KernelBench Read(string channel, double value)
    {
        _image[Place(channel)] = new ImageEntry
        {
            Last = value, Minimum = value, Maximum = value, Count = 1, Cause = BadCause.None, Quality = Quality.Good,
        };
        return this;
    }

    /// <summary>From now on the channel is Bad.</summary>
    public KernelBench Lose(string channel)
    {
        (_image[Place(channel)].Quality, _image[Place(channel)].Cause) = (Quality.Bad, BadCause.TooOld);
        return this;
    }

    /// <summary>One scan, with these commands in its inbox.</summary>
    public KernelBench Scan(params ReadOnlySpan<Command> commands)
    {
        ScanKernel.Scan(Configuration, ref _state, new ScanInput(Now, _image, commands), ref _record);
        Now += Configuration.ScanPeriod;
        OnScan?.Invoke();
        return this;
    }

    /// <summary>Scans for a time.</summary>
    public KernelBench ScanFor(double seconds)
    {
        for (TimeSpan end = Now + TimeSpan.FromSeconds(seconds); Now < end;)
            Scan();
        return this;
    }

    /// <summary>Scans until something is so; fails after two minutes of rig time.</summary>
    public KernelBench ScanUntil(Func<bool> isSo)
    {
        for (TimeSpan end = Now + TimeSpan.FromMinutes(2); !isSo(); Scan())
            Assert.True(Now < end, $"still {Rig} {_record.Phase} in step {_record.Step} after two minutes");
        return this;
    }

    public KernelBench ScanUntil(RigState state) => ScanUntil(() => Rig == state);

    /// <summary>One scan with one command; returns what became of it.</summary>
    public RefusalReason Give(CommandKind kind, CommandSource source = CommandSource.Bench)
    {
        Command command = Act(kind, source);
        Scan(command);
        Assert.Equal(1, _record.ReceiptCount);
        Assert.Equal(command.Id, _record.Receipts[0].Command);
        return _record.Receipts[0].Refusal;
    }

    public Command Act(CommandKind kind, CommandSource source = CommandSource.Bench) => new(++_commands, kind, source);

    /// <summary>Gives a command that must be accepted.</summary>
    public KernelBench Do(CommandKind kind)
    {
        Assert.Equal(RefusalReason.None, Give(kind));
        return this;
    }

    public int Place(string channel) => Array.IndexOf(_channels, channel);
}
