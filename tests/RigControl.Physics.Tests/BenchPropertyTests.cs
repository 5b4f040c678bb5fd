using System.Reflection;

namespace RigControl.Physics.Tests;

/// <summary>What must hold whatever is done to the bench. A failure names its seed.</summary>
public class BenchPropertyTests
{
    private const int Seeds = 60;
    private static readonly FieldInfo[] Numbers = [.. typeof(BenchTruth).GetFields().Where(field => field.FieldType == typeof(double))];
    private static readonly FieldInfo[] Energies = typeof(EnergyBalance).GetFields();

    [Fact]
    public void No_drive_and_no_fault_makes_a_number_that_is_none()
    {
        long looks = 0;
        ForEverySeed(bench =>
        {
            // A number that is none spreads and stays; looking through every field is slow, so every tenth step has to do.
            if (++looks % 10 != 0)
                return;
            object truth = bench.Truth, energy = bench.Truth.Energy;
            foreach (FieldInfo field in Numbers)
                Assert.True(double.IsFinite((double)field.GetValue(truth)!), $"{field.Name} is {field.GetValue(truth)}");
            foreach (FieldInfo field in Energies)
                Assert.True(double.IsFinite((double)field.GetValue(energy)!), $"{field.Name} is {field.GetValue(energy)}");
            Assert.True(double.IsFinite(bench.Tachometer.Speed(bench.Parameters.Tachometer)));
        });
    }

    [Fact]
    public void All_energy_from_the_pack_is_accounted_for()
        => ForEverySeed(bench =>
        {
            EnergyBalance energy = bench.Truth.Energy;
            double electrical = energy.PackHeat + energy.ControllerHeat + energy.WindingHeat + energy.ShaftWork;
            Near.Absolute(energy.FromPack, electrical, 1e-6 + 1e-9 * energy.FromPack);
        });

    /// <summary>A rotor brought to rest within a sub-step leaves a little of its last energy unbooked: at most 0.1 J for each jam.</summary>
    [Fact]
    public void All_work_on_the_shaft_is_stored_or_lost_to_drag()
        => ForEverySeed(bench =>
        {
            EnergyBalance energy = bench.Truth.Energy;
            double lostOrStored = energy.IronHeat + energy.DragLoss + bench.Truth.StoredEnergy;
            Near.Absolute(energy.ShaftWork, lostOrStored, 1 + 2e-3 * lostOrStored);
        });

    [Fact]
    public void Losses_and_charge_never_shrink()
    {
        EnergyBalance last = default;
        double charge = 0;
        Bench? watched = null;
        ForEverySeed(bench =>
        {
            if (!ReferenceEquals(bench, watched))
                (last, charge, watched) = (default, 0, bench);
            EnergyBalance now = bench.Truth.Energy;
            bool rising = now.FromPack >= last.FromPack && now.PackHeat >= last.PackHeat && now.ControllerHeat >= last.ControllerHeat
                && now.WindingHeat >= last.WindingHeat && now.IronHeat >= last.IronHeat && now.DragLoss >= last.DragLoss;
            Assert.True(rising && bench.Truth.ChargeUsed >= charge);
            (last, charge) = (now, bench.Truth.ChargeUsed);
        });
    }

    [Fact]
    public void No_rotor_is_driven_faster_than_voltage_over_the_motor_constant()
        => ForEverySeed(bench =>
        {
            double limit = bench.Parameters.Pack.OpenCircuitVoltage(1) / bench.Parameters.Motor.TorqueConstant;
            Assert.True(Math.Abs(bench.Truth.Speed) <= limit);
        });

    [Fact]
    public void Nothing_is_driven_through_an_open_contactor()
        => ForEverySeed(bench =>
        {
            if (!bench.Truth.ContactorClosed)
                Assert.True(bench.Truth is { MotorCurrent: 0, PackCurrent: 0, SupplyVoltage: 0, Driven: false });
        });

    [Fact]
    public void Nothing_cools_below_the_surroundings()
        => ForEverySeed(bench =>
        {
            BenchTruth truth = bench.Truth;
            double limit = truth.AmbientTemperature - 1e-9;
            Assert.True(truth.WindingTemperature >= limit && truth.CaseTemperature >= limit);
            Assert.True(truth.ControllerTemperature >= limit && truth.PackTemperature >= limit);
        });

    [Fact]
    public void A_bolt_at_home_means_a_closed_lid()
        => ForEverySeed(bench => Assert.True(!bench.Truth.BoltHome || bench.Truth.LidClosed));

    [Fact]
    public void The_bolt_never_leaves_while_the_contactor_was_closed()
    {
        bool home = true, closed = false;
        ForEverySeed(bench =>
        {
            bool left = home && !bench.Truth.BoltHome && bench.Truth.LidClosed;
            Assert.False(left && closed && bench.Truth.ContactorClosed);
            (home, closed) = (bench.Truth.BoltHome, bench.Truth.ContactorClosed);
        });
    }

    [Fact]
    public void The_random_sessions_really_turn_the_rotor_and_open_the_lid()
    {
        int turned = 0, opened = 0, armed = 0;
        ForEverySeed(bench =>
        {
            turned += Math.Abs(bench.Truth.Speed) > 100 ? 1 : 0;
            opened += bench.Truth.LidClosed ? 0 : 1;
            armed += bench.Truth.ControllerArmed ? 1 : 0;
        });
        Assert.True(turned > 5000 && opened > 5000 && armed > 5000, $"turned {turned}, opened {opened}, armed {armed}");
    }

    /// <summary>Runs a random session for each seed and looks after every step.</summary>
    private static void ForEverySeed(Action<Bench> look)
    {
        for (ulong seed = 1; seed <= Seeds; seed++)
        {
            try
            {
                RunOne(seed, look);
            }
            catch (Exception failure)
            {
                throw new InvalidOperationException($"seed {seed}: {failure.Message}", failure);
            }
        }
    }

    private static void RunOne(ulong seed, Action<Bench> look)
    {
        var chance = new SplitMix(seed);
        var bench = new Bench(RandomBench.Parameters(ref chance), seed);
        for (int act = 0; act < 30; act++)
        {
            BenchDrive drive = RandomBench.Drive(bench.Parameters.Controller, ref chance);
            bench.Faults = RandomBench.Faults(ref chance);
            double dt = chance.Uniform() < 0.1 ? chance.Uniform(1e-5, 1e-3) : chance.Uniform(0.001, 0.03);
            for (int i = 0; i < 50; i++)
            {
                bench.Step(dt, drive);
                look(bench);
            }
        }
    }
}
