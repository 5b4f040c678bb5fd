using System.Globalization;
using RigControl.Contracts;

namespace RigControl.Devices.I2cSensors;

/// <summary>
/// How the chip turns the voltage across a shunt into a current. Source: data sheet of the INA219, TI SBOS448, section
/// "Programming", from memory.
/// </summary>
/// <param name="Step">Current of one count, in A.</param>
internal sealed record Ina219Calibration(double Step)
{
    /// <summary>
    /// Value of the calibration register: the highest even one (its lowest bit is void) at which not even a saturated
    /// amplifier overflows the current register, since 32000 counts of shunt voltage × 4194 / 4096 stay below 32768. It is
    /// the same for every shunt.
    /// </summary>
    public const ushort Register = 4194;

    /// <summary>Scaling of the data sheet's equation register = 0.04096 / (step × shunt), in V.</summary>
    private const double Scale = 0.04096;

    /// <summary>Range of the amplifier after a reset, in V; a voltage beyond it reads as this.</summary>
    private const double FullScale = 0.320;

    /// <summary>Kept free below the full scale, in V, so that a saturated reading is out of the channel's range.</summary>
    private const double Headroom = 0.010;

    /// <summary>The calibration for a shunt. Throws <see cref="OptionException"/> when the current is more than the chip can measure with it.</summary>
    /// <param name="shunt">Ohm.</param>
    /// <param name="maximumCurrent">A.</param>
    public static Ina219Calibration For(double shunt, double maximumCurrent)
    {
        double most = (FullScale - Headroom) / shunt;
        if (!(maximumCurrent <= most))
        {
            throw new OptionException(string.Create(CultureInfo.InvariantCulture,
                $"an INA219 measures at most {most:0.###} A with a shunt of {shunt} Ohm; write a lower maximum-current or fit a smaller shunt"));
        }

        return new Ina219Calibration(Scale / (Register * shunt));
    }

    /// <summary>
    /// The binding takes the chip's signed count for an unsigned one, so that −1 count reads as 65535: the count is
    /// recovered and its sign put right.
    /// </summary>
    public double Signed(double current) => (short)(int)Math.Round(current / (float)Step) * Step;
}
