using RigControl.Contracts;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using static RigControl.Devices.RigBoard.Readings.BoardChannels;

namespace RigControl.Devices.RigBoard.Readings;

/// <summary>
/// Turns status lines into samples. Peaks keep their own samples with times inside the frame, so that a spike shorter than a
/// frame is seen by every decision; a reading at the end of the converter's range is Bad, since the truth may lie beyond.
/// </summary>
internal sealed class StatusTranslator
{
    /// <summary>Longest time over which one line's peaks are spread, where lines before it were lost.</summary>
    private static readonly TimeSpan LongestFrame = TimeSpan.FromMilliseconds(50);

    private readonly Scale _voltage;
    private readonly Scale _current;
    private readonly Thermistor _thermistor;
    private readonly RotorSpeed? _speed;
    private readonly ThrottleOfPulse _throttle;
    private readonly double[] _told = new double[Speed];
    private TimeSpan? _before;
    private TimeSpan _nextSlow;
    private ushort _pulses;
    private ErrorCount _errors;

    public StatusTranslator(RigBoardOptions options, Article article)
    {
        _voltage = Scale.FromZero(options.VoltageFullScale);
        _current = Scale.AroundMiddle(options.CurrentFullScale);
        _thermistor = new Thermistor(options.ThermistorResistance, options.ThermistorBeta, options.ThermistorSeries);
        _speed = options.Tachometer ? new RotorSpeed(options.PulsesPerRevolution, article.LongestCoastDown) : null;
        _throttle = new ThrottleOfPulse(article.Controller);
    }

    /// <summary>Writes the samples of one line.</summary>
    /// <param name="status">The line.</param>
    /// <param name="at">Host time of its snapshot, not before that of the line before.</param>
    /// <param name="writer">Takes the samples.</param>
    public void Write(in BoardStatus status, TimeSpan at, ISampleWriter writer)
    {
        TimeSpan frame = at - (_before ?? at - Frame);
        frame = frame < LongestFrame ? frame : LongestFrame;
        WriteReading(Voltage, _voltage, status.Voltage, at, frame, writer);
        WriteReading(Current, _current, status.Current, at, frame, writer);
        WriteSpeed(status, at, frame, writer);
        bool due = at >= _nextSlow;
        if (due)
            _nextSlow = at + SlowPeriod;
        WriteHeat(MotorHeat, status.Thermistor1, status.Wires & 3, due, at, writer);
        WriteHeat(ControllerHeat, status.Thermistor2, status.Wires >> 2, due, at, writer);
        WriteStates(status, new Teller(writer, _told, at, due));
        _before = at;
    }

    // The order within the frame is not known, so lowest and highest stand at its thirds; the mean is the latest value.
    private static void WriteReading(int channel, Scale scale, Reading reading, TimeSpan at, TimeSpan frame, ISampleWriter writer)
    {
        if (!reading.Taken)
            return;
        writer.Write(channel, at - frame * 2 / 3, scale.Of(reading.Lowest), QualityOf(scale, reading.Lowest));
        writer.Write(channel, at - frame / 3, scale.Of(reading.Highest), QualityOf(scale, reading.Highest));
        writer.Write(channel, at, scale.Of(reading.Mean), QualityOf(scale, reading.Highest));
    }

    private static Quality QualityOf(Scale scale, ushort counts) => scale.Ends(counts) ? Quality.Bad : Quality.Good;

    private void WriteSpeed(in BoardStatus status, TimeSpan at, TimeSpan frame, ISampleWriter writer)
    {
        if (_speed is null)
            return;
        (double value, Quality quality) = _speed.At(status, at);
        TimeSpan lastPulse = at - TimeSpan.FromMicroseconds(status.Age);
        bool fresh = status.Pulses != _pulses && status.Period > 0 && lastPulse > at - frame;
        _pulses = status.Pulses;
        if (status.Shortest != 0 && status.Shortest != status.Period)
            writer.Write(Speed, at - frame, _speed.Of(status.Shortest), quality);
        if (fresh)
            writer.Write(Speed, lastPulse, _speed.Of(status.Period), quality);
        if (!fresh || quality == Quality.Bad)
            writer.Write(Speed, at, value, quality);
    }

    private void WriteHeat(int channel, Reading reading, int wires, bool due, TimeSpan at, ISampleWriter writer)
    {
        if (wires != 0)
            writer.Write(channel, at, double.NaN, Quality.Bad);
        else if (due && reading.Taken)
            writer.Write(channel, at, _thermistor.Temperature(reading.Mean));
    }

    private void WriteStates(in BoardStatus status, Teller teller)
    {
        teller.Tell(Throttle, _throttle.Percent(status.Demanded, status.Measured));
        teller.Tell(Pulse, status.Measured);
        teller.Tell(Power, status.Has(BoardBits.ContactorClosed));
        teller.Tell(Lid, status.Has(BoardBits.LidContactA));
        teller.Tell(LidOpen, !status.Has(BoardBits.LidContactB));
        teller.Tell(Bolt, status.Has(BoardBits.BoltHome));
        teller.Tell(Stop, status.Has(BoardBits.StopClear));
        teller.Tell(Radio, status.Has(BoardBits.Receiver));
        teller.Tell(Key, status.Has(BoardBits.KeyClosed));
        teller.Tell(Latched, (double)status.Latched);
        teller.Tell(Receipt, status.Accepted);
        teller.Tell(Digest, status.Digest);
        teller.Tell(Nonce, status.Nonce);
        teller.Tell(Errors, _errors.Add(status.Errors));
        teller.Tell(ReceiverPulse, status.Receiver);
        teller.Tell(SecondPulse, status.Second);
        teller.Tell(Doubt, (double)(_speed?.Doubt ?? SpeedDoubt.None));
    }

    /// <summary>Tells a state at once when it changes, and else when it is due.</summary>
    private readonly struct Teller(ISampleWriter writer, double[] told, TimeSpan at, bool due)
    {
        public void Tell(int channel, bool value) => Tell(channel, value ? 1 : 0);

        public void Tell(int channel, double value)
        {
            if (!due && told[channel] == value)
                return;
            told[channel] = value;
            writer.Write(channel, at, value);
        }
    }
}
