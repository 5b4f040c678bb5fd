using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Logbook.Tests.Support;

/// <summary>Scan records as a rig makes them, and as no rig would.</summary>
internal static class ScanMaker
{
    /// <summary>Scans at rest: the clock and the watermarks go on, the state's hash changes, nothing else does.</summary>
    public static void Idle(Span<ScanRecord> scans, long first, int interlocks, int devices, int samplesPerDevice)
    {
        for (int i = 0; i < scans.Length; i++)
        {
            long number = first + i;
            scans[i] = default;
            scans[i].Scan = number;
            scans[i].Now = TimeSpan.FromMilliseconds(number);
            scans[i].StateHash = (ulong)number * 0x9E3779B97F4A7C15;
            scans[i].State = scans[i].Before = RigState.Idle;
            scans[i].AtStandstill = true;
            scans[i].InterlockCount = (byte)interlocks;
            for (int k = 0; k < interlocks; k++)
                scans[i].Demands[k] = Demand.Proceed(k, 20 + (number % 10) * 0.1, 80, 0.75, scans[i].Now);
            for (int k = 0; k < devices; k++)
                scans[i].Watermarks[k] = number * samplesPerDevice;
        }
    }

    /// <summary>Scans of which each is the one before with some fields changed to anything at all.</summary>
    public static ScanRecord[] Any(Random random, int count)
    {
        ScanRecord[] scans = new ScanRecord[count];
        ScanRecord scan = default;
        for (int i = 0; i < count; i++)
        {
            scan.Scan++;
            scan.Now += TimeSpan.FromMilliseconds(5);
            scan.ReceiptCount = 0;
            scan.Receipts = default;
            for (int changes = random.Next(6); changes > 0; changes--)
                Change(random, ref scan);
            scans[i] = scan;
        }
        return scans;
    }

    /// <summary>A scan with no field left at zero.</summary>
    public static ScanRecord Full(Random random)
    {
        ScanRecord scan = default;
        for (int i = 0; i < 2000; i++)
            Change(random, ref scan);
        scan.Scan = scan.Scan == 0 ? 7 : scan.Scan;
        scan.Finished = scan.AtStandstill = scan.AwaitsLook = true;
        scan.InterlockCount = Capacity.Interlocks;
        SetDemand(random, ref scan);
        return scan;
    }

    private static void Change(Random random, ref ScanRecord scan)
    {
        switch (random.Next(25))
        {
            case 0: scan.Scan = random.NextInt64(); break;
            case 1: scan.Now = TimeSpan.FromTicks(random.NextInt64(long.MinValue, long.MaxValue)); break;
            case 2: scan.StateHash = (ulong)random.NextInt64(long.MinValue, long.MaxValue); break;
            case 3: scan.Outputs.Throttle = Doubles.Any(random, 0.01); break;
            case 4: scan.Outputs.Pulse = Doubles.Any(random, 1); break;
            case 5: scan.Outputs.Switches = (OutputSwitches)random.NextInt64(long.MinValue, long.MaxValue); break;
            case 6: scan.Step = random.Next(int.MinValue, int.MaxValue); break;
            case 7: scan.Repeat = random.Next(int.MinValue, int.MaxValue); break;
            case 8: scan.Latched = (uint)random.NextInt64(); break;
            case 9: scan.NewlyLatched = (uint)random.NextInt64(); break;
            case 10: scan.Causes = (TripCause)random.NextInt64(); break;
            case 11: scan.NewCauses = (TripCause)random.NextInt64(); break;
            case 12: scan.Before = (RigState)random.Next(256); break;
            case 13: scan.State = (RigState)random.Next(256); break;
            case 14: scan.Phase = (ArmingPhase)random.Next(256); break;
            case 15: scan.Fired = (Trigger)random.Next(256); break;
            case 16: scan.Finished = !scan.Finished; break;
            case 17: scan.AtStandstill = !scan.AtStandstill; break;
            case 18: AddReceipt(random, ref scan); break;
            case 19: scan.Watermarks[random.Next(Capacity.Devices)] = random.NextInt64(long.MinValue, long.MaxValue); break;
            case 22: scan.Outputs.SecondThrottle = Doubles.Any(random, 0.01); break;
            case 23: scan.Outputs.SecondPulse = Doubles.Any(random, 1); break;
            case 24: scan.AwaitsLook = !scan.AwaitsLook; break;
            case 20: SetInterlocks(random, ref scan); break;
            default: SetDemand(random, ref scan); break;
        }
    }

    private static void AddReceipt(Random random, ref ScanRecord scan)
    {
        if (scan.ReceiptCount == Capacity.Commands)
            return;
        CommandKind kind = random.Next(2) == 0 ? CommandKind.Answer : (CommandKind)random.Next(256);
        scan.Receipts[scan.ReceiptCount++] = new Receipt(
            random.NextInt64(long.MinValue, long.MaxValue), kind, (CommandSource)random.Next(256), (RefusalReason)random.Next(256),
            kind == CommandKind.Answer ? Doubles.Any(random, 0.1) : 0);
    }

    private static void SetInterlocks(Random random, ref ScanRecord scan)
    {
        int count = random.Next(Capacity.Interlocks + 1);
        for (int i = count; i < Capacity.Interlocks; i++)
            scan.Demands[i] = default;
        scan.InterlockCount = (byte)count;
    }

    private static void SetDemand(Random random, ref ScanRecord scan)
    {
        if (scan.InterlockCount == 0)
            return;
        ref Demand demand = ref scan.Demands[random.Next(scan.InterlockCount)];
        demand.Value = Doubles.Any(random, 0.1);
        demand.Limit = Doubles.Any(random, 1);
        demand.Margin = Doubles.Any(random, 0.01);
        demand.ShownAt = TimeSpan.FromTicks(random.NextInt64(long.MinValue, long.MaxValue));
        demand.Channel = random.Next(int.MinValue, int.MaxValue);
        if (random.Next(2) == 0)
        {
            demand.Reason = (ushort)random.Next(65536);
            demand.Action = (DemandAction)random.Next(65536);
        }
    }
}
