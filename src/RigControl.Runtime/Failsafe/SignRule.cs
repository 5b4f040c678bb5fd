using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Signals;

namespace RigControl.Runtime.Failsafe;

/// <summary>What a sign must have been before anything was provoked, so that it shows something afterwards. The zero value is the strictest.</summary>
internal enum SignRule
{
    /// <summary>It must not have been there right up to the provocation.</summary>
    New = 0,

    /// <summary>It must not have been there at some time while the article was driven: what is read lives, though it may have settled since.</summary>
    Alive = 1,

    /// <summary>It is to be there all along.</summary>
    Stays = 2,
}

/// <summary>The rule of each sign that the stages look for.</summary>
internal static class SignRules
{
    public static SignRule Of(CompiledProvocation provocation, CompiledCondition sign, Configuration configuration) =>
        (provocation.Manner, configuration.ChannelList[sign.Channel].Name, sign.Kind) switch
        {
            // Nothing is provoked: that it all stays so is the very point, and so do the pulses beside an open stick.
            (ProvocationManner.Rest, _, _) => SignRule.Stays,
            // The power stays, so that it is the controller that stops.
            (ProvocationManner.CeasedPulses, ChannelNames.OutputPower, ConditionKind.Above) => SignRule.Stays,
            // A level as gentle as a verification's draws less, once the speed is reached, than a sensor tells from nothing. The rise draws more.
            (_, ChannelNames.BatteryCurrent, ConditionKind.Below) => SignRule.Alive,
            _ => SignRule.New,
        };
}
