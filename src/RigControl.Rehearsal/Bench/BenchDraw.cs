using RigControl.Physics;

namespace RigControl.Rehearsal.Bench;

/// <summary>Draws benches that the real one may be, around what is declared of it.</summary>
public static class BenchDraw
{
    // Below this share of what is declared, a draw would be another part.
    private const double Least = 0.2;

    /// <param name="likely">What is declared.</param>
    /// <param name="spread">How well it is known.</param>
    /// <param name="seed">The same seed draws the same bench.</param>
    public static BenchParameters Draw(BenchParameters likely, Spread spread, ulong seed)
    {
        SplitMix chance = new(seed);
        Rotor rotor = likely.Rotor;
        double drag = Factor(spread.Drag, ref chance);
        return likely with
        {
            Rotor = rotor with
            {
                Inertia = rotor.Inertia * Factor(spread.Inertia, ref chance),
                WindageShare = rotor.WindageShare * Factor(spread.Windage, ref chance),
                Drag = new Drag(rotor.Drag.Constant * drag, rotor.Drag.Linear * drag, rotor.Drag.Quadratic * drag, rotor.Drag.Breakaway * drag),
            },
            Motor = new Motor(
                likely.Motor.SpeedConstant * Factor(spread.SpeedConstant, ref chance),
                likely.Motor.Resistance * Factor(spread.WindingResistance, ref chance),
                likely.Motor.NoLoadCurrent * Factor(spread.NoLoadCurrent, ref chance)),
            Pack = likely.Pack with
            {
                Capacity = likely.Pack.Capacity * Factor(spread.Capacity, ref chance),
                Resistance = likely.Pack.Resistance * Factor(spread.PackResistance, ref chance),
            },
            MotorHeat = Warmed(likely.MotorHeat, spread.Heat, ref chance),
            ControllerHeat = Warmed(likely.ControllerHeat, spread.Heat, ref chance),
            PackHeat = Warmed(likely.PackHeat, spread.Heat, ref chance),
            AmbientTemperature = likely.AmbientTemperature + spread.Ambient * chance.Bell(),
        };
    }

    private static Heat Warmed(Heat heat, double spread, ref SplitMix chance)
    {
        double capacity = Factor(spread, ref chance), coupling = Factor(spread, ref chance);
        return new Heat(heat.InnerCapacity * capacity, heat.OuterCapacity * capacity, heat.InnerToOuter * coupling, heat.OuterToAmbient * coupling);
    }

    private static double Factor(double spread, ref SplitMix chance) => Math.Max(Least, 1 + spread * chance.Bell());
}
