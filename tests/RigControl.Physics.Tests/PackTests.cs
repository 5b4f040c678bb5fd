using System.Text.Json.Nodes;

namespace RigControl.Physics.Tests;

public class PackTests
{
    private static readonly Pack Pack = new(4, 5 * 3600, 0.05);

    /// <summary>
    /// Source: rested voltage derived from measured discharges, Ai et al. 2020 (measurements read); cells/rested_voltage.csv.
    /// The chart is of common practice, so it need not be nearer than cells differ.
    /// </summary>
    [Fact]
    public void The_chart_of_a_cell_lies_within_60_mV_of_a_measured_one()
    {
        foreach (string[] row in Reference.Rows("cells/rested_voltage.csv"))
            Near.Absolute(Reference.Number(row[1]), Pack.CellVoltage(Reference.Number(row[0])), 0.060, $"at {row[0]}");
    }

    /// <summary>Source: closed form, derived; V = 16.8 − 0.05 I with I rising to 40 A in 90 s gives 0.5 Ah and 7.7333 Wh.</summary>
    [Fact]
    public void Charge_and_energy_of_a_rising_current_agree_with_the_closed_form()
    {
        JsonNode expected = Reference.Json("motor/charge_energy.json");
        const double dt = 0.001;
        double charge = 0, energy = 0;
        for (int i = 0; i < 90000; i++)
        {
            double current = 40 * (i + 0.5) * dt / 90;
            charge += current * dt;
            energy += Pack.TerminalVoltage(1, current) * current * dt;
        }

        Near.Relative(expected.Value("Ah"), charge / 3600, 1e-9);
        Near.Relative(expected.Value("Wh"), energy / 3600, 1e-7);
    }

    [Fact]
    public void A_full_cell_has_4_2_volts() => Assert.Equal(4.20, Pack.CellVoltage(1));

    [Fact]
    public void A_cell_never_gains_voltage_while_it_empties()
    {
        for (double charge = -0.2; charge < 1.1; charge += 0.001)
            Assert.True(Pack.CellVoltage(charge) <= Pack.CellVoltage(charge + 0.001));
    }

    [Fact]
    public void A_cell_drawn_past_empty_collapses_to_nothing_and_no_further()
    {
        Assert.True(Pack.CellVoltage(-0.02) < Pack.CellVoltage(0));
        Assert.Equal(0, Pack.CellVoltage(-Pack.Collapse));
        Assert.Equal(0, Pack.CellVoltage(-10));
    }

    [Fact]
    public void A_cell_cannot_be_fuller_than_full() => Assert.Equal(4.20, Pack.CellVoltage(1.5));

    [Fact]
    public void Voltage_does_not_jump_anywhere()
    {
        for (double charge = -0.06; charge < 1; charge += 0.0001)
            Near.Absolute(Pack.CellVoltage(charge), Pack.CellVoltage(charge + 0.0001), 0.0070, $"at {charge}");
    }

    [Fact]
    public void A_pack_has_the_voltage_of_all_its_cells() => Near.Relative(4 * 4.20, Pack.OpenCircuitVoltage(1), 1e-12);

    [Fact]
    public void A_loaded_pack_sags_by_its_resistance() => Near.Relative(16.8 - 0.05 * 40, Pack.TerminalVoltage(1, 40), 1e-12);
}
