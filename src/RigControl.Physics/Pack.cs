namespace RigControl.Physics;

/// <summary>A lithium-polymer pack: open-circuit voltage over the state of charge, behind one resistance.</summary>
/// <param name="Cells">In series.</param>
/// <param name="Capacity">Coulomb (A.s); 1 Ah is 3600.</param>
/// <param name="Resistance">Whole pack, ohm.</param>
public sealed record Pack(int Cells, double Capacity, double Resistance)
{
    /// <summary>Share of the capacity beyond empty over which a cell falls to nothing.</summary>
    public const double Collapse = 0.05;

    /// <summary>
    /// Rested voltage of one cell from empty to full in steps of 5 %.
    /// Common practice, no source: charts of this kind agree to about 0.05 V above 10 %.
    /// </summary>
    private static readonly double[] Cell =
    [
        3.27, 3.61, 3.69, 3.71, 3.73, 3.75, 3.77, 3.79, 3.80, 3.82, 3.84,
        3.85, 3.87, 3.91, 3.95, 3.98, 4.02, 4.08, 4.11, 4.15, 4.20,
    ];

    /// <summary>Rested voltage of one cell, V, at a state of charge from 0 to 1; below 0 it collapses, above 1 it stays.</summary>
    public static double CellVoltage(double stateOfCharge)
    {
        if (stateOfCharge <= 0)
            return Math.Max(0, Cell[0] * (1 + stateOfCharge / Collapse));
        double position = stateOfCharge * (Cell.Length - 1);
        int index = (int)Math.Min(position, Cell.Length - 2);
        return Cell[index] + (Cell[index + 1] - Cell[index]) * Math.Min(1, position - index);
    }

    /// <summary>Rested voltage of the pack, V.</summary>
    public double OpenCircuitVoltage(double stateOfCharge) => Cells * CellVoltage(stateOfCharge);

    /// <summary>Voltage at the terminals, V, while it gives a current in A.</summary>
    public double TerminalVoltage(double stateOfCharge, double current)
        => OpenCircuitVoltage(stateOfCharge) - Resistance * current;
}
