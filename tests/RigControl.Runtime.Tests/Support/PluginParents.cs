namespace RigControl.Runtime.Tests.Support;

/// <summary>A plugin with nothing wrong: what assemblies written by tests derive from.</summary>
public class SoundPlugin : DevicePlugin<NoOptions>
{
    public override string Kind => "sound";

    public override string Meaning => "Nothing is wrong with it.";

    protected override IDevice Open(NoOptions options, DeviceContext context) => throw new DeviceException("there is no device behind it");
}

/// <summary>Cannot even be made.</summary>
public class UnmakeablePlugin : SoundPlugin
{
    public UnmakeablePlugin() => throw new InvalidOperationException("its licence has run out");
}

/// <summary>Can be made but cannot say what may be written in a rig file.</summary>
public class UndescribablePlugin : DevicePlugin<OptionsThatThrow>
{
    public override string Kind => "undescribable";

    public override string Meaning => "Its options cannot be made.";

    protected override IDevice Open(OptionsThatThrow options, DeviceContext context) => throw new DeviceException("never opened");
}

/// <summary>Options that fail when they are made.</summary>
public sealed class OptionsThatThrow
{
    public OptionsThatThrow() => throw new InvalidOperationException("its defaults are in a file that is not there");
}
