using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Logbook.Blocks;

/// <summary>
/// Packs scan records in order into a block that needs no other block to be read: a version byte, the count, then per scan
/// the <see cref="ScanFields"/> that differ from what the scan before lets expect, and those fields, and a seal. An idle scan takes
/// nine bytes, eight of them the state hash.
/// <para>
/// Everything in a record is kept exactly, with two exceptions. Slots beyond <see cref="ScanRecord.ReceiptCount"/> and
/// <see cref="ScanRecord.InterlockCount"/> come back as zero. And a demand's value, limit, margin, channel and time are
/// kept for the first scan of a block and whenever its action or reason changes, and stand still in between: what an
/// untroubled interlock saw from scan to scan is computed again by a replay, from the samples. Action and reason are
/// exact in every scan.
/// </para>
/// </summary>
internal sealed class ScanEncoder
{
    public const byte Version = 1;

    /// <summary>What the first scan of a block is compared with. A zero demand never counts as already written.</summary>
    private static readonly ScanRecord Nothing;

    private readonly BlockWriter _block = new();
    private ScanSteps _steps;

    /// <returns>The block; it is overwritten by the next call.</returns>
    public ReadOnlySpan<byte> Encode(ReadOnlySpan<ScanRecord> scans)
    {
        _block.Clear();
        _block.Byte(Version);
        _block.Unsigned((uint)scans.Length);
        _steps = default;
        ref readonly ScanRecord before = ref Nothing;
        foreach (ref readonly ScanRecord scan in scans)
        {
            Write(scan, before);
            before = ref scan;
        }
        _block.Seal();
        return _block.Bytes;
    }

    private void Write(in ScanRecord scan, in ScanRecord before)
    {
        ScanFields fields = Differing(scan, before);
        _block.Unsigned((uint)fields);
        if ((fields & ScanFields.Hash) != 0) _block.Fixed(scan.StateHash);
        if ((fields & ScanFields.Clock) != 0) WriteClock(scan, before);
        if ((fields & ScanFields.Watermarks) != 0) WriteWatermarks(scan, before);
        if ((fields & ScanFields.Demands) != 0) WriteDemands(scan, before);
        if ((fields & ScanFields.Outputs) != 0) WriteOutputs(scan);
        if ((fields & ScanFields.Sequence) != 0) WriteSequence(scan);
        if ((fields & ScanFields.Receipts) != 0) WriteReceipts(scan);
        if ((fields & ScanFields.Latches) != 0) WriteLatches(scan);
        if ((fields & ScanFields.Number) != 0) _block.Signed(scan.Scan - before.Scan);
        if ((fields & ScanFields.Second) != 0) WriteSecond(scan);
    }

    private ScanFields Differing(in ScanRecord scan, in ScanRecord before)
    {
        ScanFields fields = ScanFields.None;
        if (scan.StateHash != before.StateHash) fields |= ScanFields.Hash;
        if (scan.Now.Ticks != before.Now.Ticks + _steps.Clock) fields |= ScanFields.Clock;
        if (WatermarksDiffer(scan, before)) fields |= ScanFields.Watermarks;
        if (ChangedDemands(scan, before) != 0 || scan.InterlockCount != before.InterlockCount) fields |= ScanFields.Demands;
        if (OutputsDiffer(scan.Outputs, before.Outputs)) fields |= ScanFields.Outputs;
        if (SequenceDiffers(scan, before)) fields |= ScanFields.Sequence;
        if (scan.ReceiptCount != 0) fields |= ScanFields.Receipts;
        if (LatchesDiffer(scan, before)) fields |= ScanFields.Latches;
        if (scan.Scan != before.Scan + 1) fields |= ScanFields.Number;
        if (SecondDiffers(scan.Outputs, before.Outputs)) fields |= ScanFields.Second;
        return fields;
    }

    private bool WatermarksDiffer(in ScanRecord scan, in ScanRecord before)
    {
        for (int i = 0; i < Capacity.Devices; i++)
        {
            if (scan.Watermarks[i] != before.Watermarks[i] + _steps.Watermarks[i])
                return true;
        }
        return false;
    }

    /// <summary>One bit for each demand to be spelled out: new in this scan, or with another action or reason.</summary>
    private static uint ChangedDemands(in ScanRecord scan, in ScanRecord before)
    {
        uint changed = 0;
        for (int i = 0; i < scan.InterlockCount; i++)
        {
            ref readonly Demand now = ref scan.Demands[i];
            ref readonly Demand then = ref before.Demands[i];
            if (i >= before.InterlockCount || now.Action != then.Action || now.Reason != then.Reason)
                changed |= 1u << i;
        }
        return changed;
    }

    /// <summary>Bits are compared, not numbers: a minus zero is another value and a NaN equals itself.</summary>
    private static bool OutputsDiffer(in OutputImage now, in OutputImage then) =>
        BitConverter.DoubleToUInt64Bits(now.Throttle) != BitConverter.DoubleToUInt64Bits(then.Throttle)
        || BitConverter.DoubleToUInt64Bits(now.Pulse) != BitConverter.DoubleToUInt64Bits(then.Pulse)
        || now.Switches != then.Switches;

    private static bool SecondDiffers(in OutputImage now, in OutputImage then) =>
        BitConverter.DoubleToUInt64Bits(now.SecondThrottle) != BitConverter.DoubleToUInt64Bits(then.SecondThrottle)
        || BitConverter.DoubleToUInt64Bits(now.SecondPulse) != BitConverter.DoubleToUInt64Bits(then.SecondPulse);

    private static bool SequenceDiffers(in ScanRecord now, in ScanRecord then) =>
        now.Before != then.Before || now.State != then.State || now.Fired != then.Fired
        || now.Step != then.Step || now.Repeat != then.Repeat || now.Phase != then.Phase
        || now.Finished != then.Finished || now.AtStandstill != then.AtStandstill || now.AwaitsLook != then.AwaitsLook;

    private static bool LatchesDiffer(in ScanRecord now, in ScanRecord then) =>
        now.Latched != then.Latched || now.NewlyLatched != then.NewlyLatched
        || now.Causes != then.Causes || now.NewCauses != then.NewCauses;

    private void WriteClock(in ScanRecord scan, in ScanRecord before)
    {
        _steps.Clock = scan.Now.Ticks - before.Now.Ticks;
        _block.Signed(_steps.Clock);
    }

    private void WriteWatermarks(in ScanRecord scan, in ScanRecord before)
    {
        for (int i = 0; i < Capacity.Devices; i++)
        {
            long step = scan.Watermarks[i] - before.Watermarks[i];
            _block.Signed(step - _steps.Watermarks[i]);
            _steps.Watermarks[i] = step;
        }
    }

    private void WriteDemands(in ScanRecord scan, in ScanRecord before)
    {
        uint changed = ChangedDemands(scan, before);
        _block.Byte(scan.InterlockCount);
        _block.Unsigned(changed);
        for (int i = 0; i < scan.InterlockCount; i++)
        {
            if ((changed & (1u << i)) != 0)
                WriteDemand(scan.Demands[i]);
        }
    }

    private void WriteDemand(in Demand demand)
    {
        _block.Double(demand.Value);
        _block.Double(demand.Limit);
        _block.Double(demand.Margin);
        _block.Signed(demand.ShownAt.Ticks);
        _block.Signed(demand.Channel);
        _block.Unsigned(demand.Reason);
        _block.Unsigned((ushort)demand.Action);
    }

    private void WriteOutputs(in ScanRecord scan)
    {
        _block.Double(scan.Outputs.Throttle);
        _block.Double(scan.Outputs.Pulse);
        _block.Unsigned((ulong)scan.Outputs.Switches);
    }

    private void WriteSecond(in ScanRecord scan)
    {
        _block.Double(scan.Outputs.SecondThrottle);
        _block.Double(scan.Outputs.SecondPulse);
    }

    private void WriteSequence(in ScanRecord scan)
    {
        _block.Byte((byte)scan.Before);
        _block.Byte((byte)scan.State);
        _block.Byte((byte)scan.Fired);
        _block.Signed(scan.Step);
        _block.Signed(scan.Repeat);
        _block.Byte((byte)scan.Phase);
        _block.Byte((byte)((scan.Finished ? 1 : 0) | (scan.AtStandstill ? 2 : 0) | (scan.AwaitsLook ? 4 : 0)));
    }

    private void WriteReceipts(in ScanRecord scan)
    {
        _block.Byte(scan.ReceiptCount);
        for (int i = 0; i < scan.ReceiptCount; i++)
        {
            Receipt receipt = scan.Receipts[i];
            _block.Signed(receipt.Command);
            _block.Byte((byte)receipt.Kind);
            _block.Byte((byte)receipt.Source);
            _block.Byte((byte)receipt.Refusal);
            if (receipt.Kind == CommandKind.Answer) _block.Bits(BitConverter.DoubleToUInt64Bits(receipt.Value));
        }
    }

    private void WriteLatches(in ScanRecord scan)
    {
        _block.Unsigned(scan.Latched);
        _block.Unsigned(scan.NewlyLatched);
        _block.Unsigned((uint)scan.Causes);
        _block.Unsigned((uint)scan.NewCauses);
    }
}
