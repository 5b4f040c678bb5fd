namespace RigControl.Model.Signals;

/// <summary>The usual channels. Any other name is allowed; these are the ones that figures and prompts look for.</summary>
public static class ChannelNames
{
    public const string RotorSpeed = "rotor.speed";
    public const string OutputThrottle = "output.throttle";
    public const string OutputPulse = "output.pulse";
    public const string OutputPower = "output.power";
    public const string BatteryVoltage = "battery.voltage";
    public const string BatteryCurrent = "battery.current";
    public const string BatteryTemperature = "battery.temperature";
    public const string MotorTemperature = "motor.temperature";
    public const string ControllerTemperature = "controller.temperature";
    public const string AmbientTemperature = "ambient.temperature";
    public const string Vibration = "vibration";

    /// <summary>1 when the lid is closed, from the contact that closes with the lid.</summary>
    public const string EnclosureLid = "enclosure.lid";

    /// <summary>1 when the lid is open, from the antivalent contact that opens with the lid's closing.</summary>
    public const string EnclosureLidOpen = "enclosure.lid-open";

    /// <summary>1 when the bolt is home.</summary>
    public const string EnclosureLock = "enclosure.lock";

    /// <summary>1 while the stop circuit is closed, so that a broken wire reads as pressed.</summary>
    public const string StopClear = "stop.clear";

    /// <summary>1 while the arm key is closed.</summary>
    public const string ArmKey = "board.key";

    /// <summary>1 while the receiver hears its transmitter.</summary>
    public const string RadioLink = "radio.link";

    /// <summary>Width of the receiver's last pulse, in us; 0 while it gives none.</summary>
    public const string ReceiverPulse = "receiver.pulse";

    /// <summary>Pulse put out to the second output, in us.</summary>
    public const string SecondPulse = "second.pulse";

    /// <summary>1 once the failsafe has been confirmed for this session. Written by the host.</summary>
    public const string FailsafeConfirmed = "failsafe.confirmed";

    /// <summary>1 where nothing is known that may have left the rotor turning before this session. Written by the host.</summary>
    public const string LeftAtRest = "rotor.left-at-rest";

    /// <summary>1 while somebody can act at the bench. Written by the host.</summary>
    public const string OperatorPresent = "operator.present";

    /// <summary>Share of the recorder's queue in use, in %. Written by the host.</summary>
    public const string RecorderBacklog = "recorder.backlog";

    /// <summary>How late the scan started, in ms. Written by the host.</summary>
    public const string ScanLateness = "scan.lateness";

    /// <summary>Health of one device, 1 while it answers. Written by the host.</summary>
    public static string DeviceHealth(string device) => $"device.{device}.health";
}
