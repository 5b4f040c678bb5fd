namespace RigControl.Physics.Tests;

/// <summary>A bench and a pair of hands: holds a drive for a time, step by step.</summary>
internal sealed class Session(BenchParameters parameters, ulong seed = 1, double dt = 0.005)
{
    public Bench Bench { get; } = new(parameters, seed);

    public ref readonly BenchTruth Truth => ref Bench.Truth;

    /// <summary>Energised, with a pulse in us.</summary>
    public Session Pulse(double pulse, double time) => Drive(new BenchDrive(pulse, true, false), time);

    /// <summary>No power, no pulse.</summary>
    public Session Off(double time) => Drive(default, time);

    public Session Drive(BenchDrive drive, double time, Action<BenchTruth>? watch = null)
    {
        for (int i = 0; i < (int)Math.Round(time / dt); i++)
        {
            Bench.Step(dt, drive);
            watch?.Invoke(Bench.Truth);
        }

        return this;
    }

    /// <summary>Power on, stop pulse until armed.</summary>
    public Session Arm()
    {
        Pulse(Bench.Parameters.Controller.StopPulse, Bench.Parameters.Controller.ArmingTime + 0.1);
        Assert.True(Truth.ControllerArmed);
        return this;
    }

    /// <summary>A bench without sag, heat, drag or limits, for closed forms: Kt 0.01, 0.1 ohm, 1e-4 kg.m2, time constant 0.1 s.</summary>
    public static BenchParameters Ideal(Drag drag = default) => new()
    {
        Rotor = new Rotor(1e-4, 0.02, drag, 0),
        Motor = new Motor(60 / (2 * Math.PI * 0.01), 0.1, 0),
        MotorHeat = new Heat(1e12, 1e12, 1, 1),
        Controller = new SpeedController { CurrentLimit = 1e9, DutyRise = 1e9, Resistance = 0, IdleCurrent = 0 },
        Pack = new Pack(3, 1e12, 0),
        Tachometer = new Tachometer(1, 0.5e-6, 0),
    };
}
