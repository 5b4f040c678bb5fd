using System.Device.I2c;
using RigControl.Contracts.Buses;

namespace RigControl.Devices.I2cSensors.Tests.Emulation;

/// <summary>Bus 1 with some chips on it; at any other address nobody acknowledges.</summary>
internal sealed class EmulatedBuses(params EmulatedChip[] chips) : IBuses
{
    public I2cDevice OpenI2c(int bus, int address) => bus != 1
        ? throw new IOException($"there is no I2C bus {bus} on this machine (/dev/i2c-{bus})")
        : chips.FirstOrDefault(c => c.ConnectionSettings.DeviceAddress == address) ?? (I2cDevice)new Nobody(address);

    private sealed class Nobody : EmulatedChip
    {
        public Nobody(int address) : base(address) => Fail(1);

        protected override void Take(ReadOnlySpan<byte> bytes) => throw NotAcknowledged;

        protected override void Answer(Span<byte> bytes) => throw NotAcknowledged;
    }
}
