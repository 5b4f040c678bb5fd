namespace RigControl.Physics;

/// <summary>
/// The one plant: rotor, motor, controller, pack, heat, enclosure and tachometer. It knows no clock; time passes by <see cref="Step"/>.
/// The same parameters, seed, drives and faults give the same bits.
/// </summary>
public sealed class Bench
{
    /// <summary>Longest internal step, s. The motion is stable for any step; this one keeps its error below a thousandth.</summary>
    public const double MaximumSubStep = 0.001;

    /// <summary>Longest step that may be asked for, s.</summary>
    public const double MaximumStep = 1;

    /// <summary>What is broken, or done by a person; change it between steps.</summary>
    public BenchFaults Faults;

    private readonly BenchParameters _data;
    private readonly RotorMotion _motion;
    private readonly double _torqueConstant;
    private readonly double _ironTorque;
    private SplitMix _chance;
    private DriveCircuit _circuit;
    private EnclosureState _enclosure;
    private SpeedControllerState _controller;
    private TachometerState _tachometer;
    private HeatState _motorHeat, _controllerHeat, _packHeat;
    private BenchTruth _truth;
    private double _openCircuit;
    private double _windingResistance;

    /// <summary>A bench at rest, at ambient temperature, with the lid closed and locked and the power off.</summary>
    /// <exception cref="ArgumentException">A parameter is one that no bench can have; the message names it.</exception>
    public Bench(BenchParameters parameters, ulong seed)
    {
        BenchParametersCheck.Check(parameters);
        _data = parameters;
        _chance = new SplitMix(seed);
        _torqueConstant = parameters.Motor.TorqueConstant;
        _ironTorque = _torqueConstant * parameters.Motor.NoLoadCurrent;
        _motion = new RotorMotion(parameters.Rotor.Inertia, ResistingTorque(parameters));
        double ambient = parameters.AmbientTemperature;
        _motorHeat = _controllerHeat = _packHeat = new HeatState(ambient, ambient);
        _circuit = new DriveCircuit { PackResistance = parameters.Pack.Resistance, EmfConstant = _torqueConstant };
        _openCircuit = parameters.Pack.OpenCircuitVoltage(parameters.StateOfCharge);
        _truth.PackVoltage = _openCircuit;
        _enclosure.Advance(_data.Enclosure, default, Faults, 0);
        Publish();
    }

    public BenchParameters Parameters => _data;

    /// <summary>What is really so.</summary>
    public ref readonly BenchTruth Truth => ref _truth;

    /// <summary>What the tachometer has seen.</summary>
    public TachometerState Tachometer => _tachometer;

    /// <summary>What the contacts said at the end of the last step.</summary>
    public BenchReadings Readings => new(
        _enclosure.LidContactA, _enclosure.LidContactB, _enclosure.BoltHome,
        _enclosure.StopCircuitClosed, _enclosure.ContactorClosed, !Faults.RadioLost);

    /// <summary>Lets <paramref name="dt"/> s pass, above 0 and at most <see cref="MaximumStep"/>, under one drive.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The step is not in its range, or the pulse is not a number.</exception>
    public void Step(double dt, in BenchDrive drive)
    {
        if (!(dt > 0 && dt <= MaximumStep))
            throw new ArgumentOutOfRangeException(nameof(dt), dt, $"A step of the bench lasts more than 0 s and at most {MaximumStep} s.");
        if (!double.IsFinite(drive.PulseMicroseconds))
            throw new ArgumentOutOfRangeException(nameof(drive), "A pulse is a number of microseconds, 0 for none.");
        int count = (int)Math.Ceiling(dt / MaximumSubStep - 1e-9);
        double subStep = dt / count;
        EnergyBalance before = _truth.Energy;
        _truth.HighestPackCurrent = 0;
        _truth.LowestPackVoltage = double.MaxValue;
        Prepare();
        for (int i = 0; i < count; i++)
            SubStep(subStep, drive);
        Warm(before, dt);
        _truth.Time += dt;
        Publish();
    }

    /// <summary>What changes too slowly to matter within a step: charge and temperature.</summary>
    private void Prepare()
    {
        _openCircuit = _data.Pack.OpenCircuitVoltage(_truth.StateOfCharge);
        _windingResistance = _data.Motor.ResistanceAt(_motorHeat.Inner);
        _circuit.LoopResistance = _windingResistance + _data.Controller.Resistance;
    }

    private void SubStep(double dt, in BenchDrive drive)
    {
        _enclosure.Advance(_data.Enclosure, drive, Faults, dt);
        bool powered = Control(drive.PulseMicroseconds, dt);
        double idle = powered ? _data.Controller.IdleCurrent : 0;
        _circuit.Source = _openCircuit - idle * _data.Pack.Resistance;
        _circuit.Limit = Faults.ControllerShorted ? double.MaxValue : _data.Controller.CurrentLimit;
        double before = _truth.Speed;
        double current = WindingCurrent(powered, before, out double slope);
        double friction = (Faults.AddedFriction > 0 ? Faults.AddedFriction : 0) + (Faults.RotorJammed ? _data.JamTorque : 0);
        double after = _motion.Advance(before, _torqueConstant * current, _torqueConstant * slope, friction, dt);
        double middle = 0.5 * (before + after);
        Account(current + slope * (middle - before), middle, friction, idle, dt);
        _tachometer.Advance(_data.Tachometer, middle * dt, Faults.Tachometer, ref _chance, dt);
        _truth.Speed = after;
        _truth.Acceleration = (after - before) / dt;
    }

    /// <summary>Lets the controller listen; true while it has supply enough to live.</summary>
    private bool Control(double pulse, double dt)
    {
        bool powered = _enclosure.ContactorClosed && _truth.PackVoltage > _data.Controller.MinimumSupply;
        _controller.Advance(_data.Controller, Faults.StuckPulse > 0 ? Faults.StuckPulse : pulse, powered, dt);
        bool wild = Faults.ControllerShorted || (Faults.ControllerRunaway && powered);
        if (wild && _data.Controller.Mode != ControllerMode.Servo)
            _controller.RunAway(_enclosure.ContactorClosed ? 1 : 0);
        return powered;
    }

    private double WindingCurrent(bool powered, double speed, out double slope)
    {
        if (powered && _controller.Braking)
            return _circuit.Brake(speed, out slope);
        return _circuit.Drive(_controller.Duty, speed, out slope);
    }

    /// <summary>Books currents, charge and energy of a sub-step at its middle.</summary>
    private void Account(double current, double speed, double friction, double idle, double dt)
    {
        double shaft = _torqueConstant * current * speed;
        double winding = current * current * _windingResistance;
        double power = shaft + current * current * _circuit.LoopResistance;
        double packCurrent = _circuit.PackCurrent(power) + idle;
        double voltage = _openCircuit - packCurrent * _data.Pack.Resistance;
        _truth.MotorCurrent = current;
        _truth.PackCurrent = packCurrent;
        _truth.PackVoltage = voltage;
        _truth.HighestPackCurrent = Math.Max(_truth.HighestPackCurrent, packCurrent);
        _truth.LowestPackVoltage = Math.Min(_truth.LowestPackVoltage, voltage);
        _truth.ChargeUsed += packCurrent * dt;
        ref EnergyBalance energy = ref _truth.Energy;
        energy.FromPack += _openCircuit * packCurrent * dt;
        energy.PackHeat += packCurrent * packCurrent * _data.Pack.Resistance * dt;
        energy.WindingHeat += winding * dt;
        energy.ControllerHeat += (current * current * _data.Controller.Resistance + idle * voltage + Math.Max(0, -power)) * dt;
        energy.ShaftWork += shaft * dt;
        AccountForDrag(Math.Abs(speed), friction, dt);
    }

    private void AccountForDrag(double speed, double friction, double dt)
    {
        double resisting = _motion.Drag.Torque(speed, out _) + friction;
        _truth.Energy.IronHeat += _ironTorque * speed * dt;
        _truth.Energy.DragLoss += (resisting - _ironTorque) * speed * dt;
    }

    private void Warm(in EnergyBalance before, double dt)
    {
        ref EnergyBalance now = ref _truth.Energy;
        double ambient = _data.AmbientTemperature;
        double perTime = 1 / dt;
        double winding = (now.WindingHeat - before.WindingHeat) * perTime;
        double iron = (now.IronHeat - before.IronHeat) * perTime + Faults.AddedHeat;
        double controller = (now.ControllerHeat - before.ControllerHeat) * perTime;
        double pack = (now.PackHeat - before.PackHeat) * perTime;
        now.GivenOff += _motorHeat.Advance(_data.MotorHeat, winding, iron, ambient, dt)
            + _controllerHeat.Advance(_data.ControllerHeat, controller, 0, ambient, dt)
            + _packHeat.Advance(_data.PackHeat, pack, 0, ambient, dt);
    }

    private void Publish()
    {
        _truth.StateOfCharge = _data.StateOfCharge - _truth.ChargeUsed / _data.Pack.Capacity;
        _truth.StoredEnergy = _data.Rotor.Energy(_truth.Speed);
        _truth.TipSpeed = _data.Rotor.TipSpeed(_truth.Speed);
        _truth.Duty = _controller.Duty;
        _truth.ControllerArmed = _controller.Armed;
        _truth.ServoPosition = _controller.Position;
        _truth.SupplyVoltage = _enclosure.ContactorClosed ? _truth.PackVoltage : 0;
        _truth.WindingTemperature = _motorHeat.Inner;
        _truth.CaseTemperature = _motorHeat.Outer;
        _truth.ControllerTemperature = _controllerHeat.Inner;
        _truth.PackTemperature = _packHeat.Inner;
        _truth.AmbientTemperature = _data.AmbientTemperature;
        _truth.ContactorClosed = _enclosure.ContactorClosed;
        _truth.LidClosed = _enclosure.LidClosed;
        _truth.BoltHome = _enclosure.BoltHome;
        _truth.StopPressed = Faults.StopPressed;
    }

    /// <summary>Rotor's drag, motor iron and windage, up to half as fast again as a full pack can drive it.</summary>
    private static DragCurve ResistingTorque(BenchParameters data)
    {
        Drag drag = data.Rotor.Drag.Plus(data.Motor.TorqueConstant * data.Motor.NoLoadCurrent);
        double maximumSpeed = 1.5 * data.Pack.OpenCircuitVoltage(1) / data.Motor.TorqueConstant;
        return new DragCurve(drag, data.Air, data.Rotor.TipRadius, data.Rotor.WindageShare, maximumSpeed);
    }
}
