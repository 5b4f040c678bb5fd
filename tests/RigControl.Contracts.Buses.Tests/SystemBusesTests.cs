using System.Device.I2c;

namespace RigControl.Contracts.Buses.Tests;

public class SystemBusesTests
{
    // One never passes where nothing hangs; the other is used only where something hangs on purpose.
    private static readonly TimeSpan Patient = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan Impatient = TimeSpan.FromMilliseconds(1);

    private readonly Dictionary<int, MemoryBus> _made = [];
    private readonly SystemBuses _buses;
    private TimeSpan _deadline = Patient;

    public SystemBusesTests() => _buses = new SystemBuses(number => _made[number] = new MemoryBus(), () => _deadline);

    [Fact]
    public void What_is_written_to_a_chip_can_be_read_back()
    {
        using I2cDevice chip = _buses.OpenI2c(1, 64);
        chip.Write([1, 2, 3]);
        byte[] read = new byte[3];
        chip.Read(read);
        Assert.Equal([1, 2, 3], read);
        chip.WriteRead([4, 5], read.AsSpan(0, 2));
        Assert.Equal([4, 5, 3], read);
        Assert.Equal(64, chip.ConnectionSettings.DeviceAddress);
    }

    [Fact]
    public void One_thread_alone_touches_a_bus_however_many_ask()
    {
        I2cDevice[] chips = [.. Enumerable.Range(64, 4).Select(address => _buses.OpenI2c(1, address))];
        Thread[] askers = [.. chips.Select(chip => new Thread(() => WriteMany(chip)))];
        foreach (Thread asker in askers)
            asker.Start();
        foreach (Thread asker in askers)
            asker.Join();
        Assert.Equal(4 * 100, _made[1].Transfers);
        Assert.NotEqual(Environment.CurrentManagedThreadId, Assert.Single(_made[1].Threads));
    }

    [Fact]
    public void Each_bus_has_a_thread_of_its_own_so_that_one_does_not_hold_up_the_other()
    {
        using I2cDevice first = _buses.OpenI2c(1, 64);
        using I2cDevice second = _buses.OpenI2c(2, 64);
        Assert.NotEqual(Assert.Single(_made[1].Threads), Assert.Single(_made[2].Threads));
    }

    [Fact]
    public void A_bus_is_opened_once_and_closed_with_its_last_chip()
    {
        I2cDevice first = _buses.OpenI2c(1, 64);
        I2cDevice second = _buses.OpenI2c(1, 65);
        first.Dispose();
        first.Dispose();
        second.Write([1]);
        Assert.Equal((1, false), (_made[1].Chips, _made[1].Closed.IsSet));
        second.Dispose();
        MemoryBus closed = _made[1];
        Assert.Equal(0, closed.Chips);
        Assert.True(closed.Closed.Wait(Patient, TestContext.Current.CancellationToken));
        using I2cDevice again = _buses.OpenI2c(1, 64);
        Assert.NotSame(closed, _made[1]);
    }

    [Fact]
    public void An_address_can_be_used_by_one_device_at_a_time()
    {
        I2cDevice chip = _buses.OpenI2c(1, 64);
        string message = Assert.Throws<IOException>(() => _buses.OpenI2c(1, 64)).Message;
        Assert.Equal("address 64 on I2C bus 1 is already used by another device of this rig", message);
        chip.Dispose();
        _buses.OpenI2c(1, 64).Dispose();
    }

    [Fact]
    public void A_chip_that_was_given_back_is_not_used_any_more()
    {
        I2cDevice chip = _buses.OpenI2c(1, 64);
        chip.Dispose();
        Assert.Throws<ObjectDisposedException>(() => chip.Write([1]));
    }

    [Fact]
    public void A_transfer_that_fails_fails_where_it_was_asked_for_and_the_next_goes_through()
    {
        using I2cDevice chip = _buses.OpenI2c(1, 64);
        _made[1].Failure = new IOException("Error 121 performing I2C data transfer.");
        Assert.Same(_made[1].Failure, Assert.Throws<IOException>(() => chip.Write([1])));
        _made[1].Failure = null;
        chip.Write([1]);
        Assert.Equal(1, _made[1].Transfers);
    }

    [Fact]
    public void A_chip_that_cannot_be_made_leaves_its_address_free()
    {
        using I2cDevice other = _buses.OpenI2c(1, 65);
        _made[1].Failure = new IOException("no");
        Assert.Throws<IOException>(() => _buses.OpenI2c(1, 64));
        _made[1].Failure = null;
        _buses.OpenI2c(1, 64).Dispose();
    }

    [Fact]
    public void A_stuck_bus_lets_go_of_whoever_waits_and_says_so()
    {
        using I2cDevice chip = _buses.OpenI2c(1, 64);
        _made[1].Gate.Reset();
        _deadline = Impatient;
        string message = Assert.Throws<TimeoutException>(() => chip.Write([1])).Message;
        Assert.Equal("I2C bus 1 did not finish a transfer within 1 ms; the bus is stuck.", message);
        Recover();
    }

    [Fact]
    public void A_stuck_bus_does_not_keep_a_chip_from_being_given_back()
    {
        I2cDevice chip = _buses.OpenI2c(1, 64);
        _made[1].Gate.Reset();
        _deadline = Impatient;
        Assert.Throws<TimeoutException>(chip.Dispose);
        chip.Dispose();
        Recover();
        using I2cDevice onANewBus = _buses.OpenI2c(1, 64);
        onANewBus.Write([1]);
    }

    [Fact]
    public void What_waited_behind_a_stuck_transfer_is_dropped_and_never_done_late()
    {
        using I2cDevice chip = _buses.OpenI2c(1, 64);
        _made[1].Gate.Reset();
        Thread first = new(() => chip.Write([1]));
        first.Start();
        _made[1].Hanging.Wait(TestContext.Current.CancellationToken);
        _deadline = Impatient;
        Assert.Throws<TimeoutException>(() => chip.Write([2]));
        Recover();
        first.Join();
        byte[] read = new byte[1];
        chip.Read(read);
        Assert.Equal([1], read);
        Assert.Equal(2, _made[1].Transfers);
    }

    [Fact]
    public void A_bus_that_is_not_there_is_named()
    {
        string message = Assert.Throws<IOException>(() => SystemBuses.Shared.OpenI2c(4711, 64)).Message;
        Assert.Equal("there is no I2C bus 4711 on this machine (/dev/i2c-4711)", message);
    }

    private void Recover()
    {
        _deadline = Patient;
        _made[1].Gate.Set();
    }

    private static void WriteMany(I2cDevice chip)
    {
        for (int i = 0; i < 100; i++)
            chip.Write([(byte)i]);
    }
}
