namespace RigControl.Kernel.Tests.Support;

/// <summary>Steps in one line each. Times in seconds.</summary>
internal static class Steps
{
    public static Step Arm(double within = 10) => new() { Kind = StepKind.Arm, Timeout = Seconds(within) };

    public static Step SpinUp(double throttle = 0.6, double ramp = 0.5, double timeout = 5, params Condition[] until) =>
        new() { Kind = StepKind.SpinUp, Throttle = throttle, Ramp = Seconds(ramp), Timeout = Seconds(timeout), Until = until };

    public static Step Hold(double seconds = 0.3) => new() { Kind = StepKind.Hold, For = Seconds(seconds), Timeout = Seconds(seconds + 1) };

    public static Step Gate(double seconds = 0.5) => new() { Kind = StepKind.Gate, For = Seconds(seconds), Timeout = Seconds(seconds + 1) };

    /// <summary>Ends below 60 rpm, as a coast-down usually does.</summary>
    public static Step CoastDown(double timeout = 5) =>
        new() { Kind = StepKind.CoastDown, Until = [Below(ChannelNames.RotorSpeed, 60)], Timeout = Seconds(timeout) };

    public static Step Rest(double seconds = 0.2) => new() { Kind = StepKind.Rest, For = Seconds(seconds), Timeout = Seconds(seconds + 1) };

    public static Condition Below(string channel, double value, double seconds = 0) =>
        new(channel, ConditionKind.Below, value, false, Seconds(seconds));

    public static Condition Above(string channel, double value, double seconds = 0) =>
        new(channel, ConditionKind.Above, value, false, Seconds(seconds));

    public static Condition Steady(string channel, double band, bool relative, double seconds) =>
        new(channel, ConditionKind.SteadyWithin, band, relative, Seconds(seconds));

    public static TimeSpan Seconds(double seconds) => TimeSpan.FromSeconds(seconds);
}
