using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Logbook.Blocks;

/// <summary>
/// Unpacks what <see cref="ScanEncoder"/> packed, one scan after the other into the same record, which must be left as it
/// is between calls. A damaged block throws <see cref="InvalidDataException"/>.
/// </summary>
internal sealed class ScanDecoder
{
    private BlockReader _block;
    private ScanSteps _steps;
    private int _left;

    /// <summary>Starts a block. The record of the next call to <see cref="Next"/> is emptied first.</summary>
    public void Start(byte[] block, ref ScanRecord scan)
    {
        _block = BlockSeal.Open(block);
        byte version = _block.Byte();
        if (version != ScanEncoder.Version)
            throw new InvalidDataException($"a block of scans has version {version}, this program reads {ScanEncoder.Version}");
        _left = _block.UpTo(block.Length);
        _steps = default;
        scan = default;
    }

    /// <returns>False when the block has no more scans; <paramref name="scan"/> is then the last one still.</returns>
    public bool Next(ref ScanRecord scan)
    {
        if (_left == 0)
            return false;
        Read(ref scan);
        if (--_left == 0)
            _block.End();
        return true;
    }

    private void Read(ref ScanRecord scan)
    {
        ScanFields fields = (ScanFields)_block.UpTo((int)ScanFields.All);
        if ((fields & ScanFields.Hash) != 0) scan.StateHash = _block.Fixed();
        if ((fields & ScanFields.Clock) != 0) _steps.Clock = _block.Signed();
        if ((fields & ScanFields.Watermarks) != 0) ReadWatermarks();
        if ((fields & ScanFields.Demands) != 0) ReadDemands(ref scan);
        if ((fields & ScanFields.Outputs) != 0) ReadOutputs(ref scan);
        if ((fields & ScanFields.Sequence) != 0) ReadSequence(ref scan);
        ReadReceipts(ref scan, (fields & ScanFields.Receipts) != 0 ? _block.Byte() : (byte)0);
        if ((fields & ScanFields.Latches) != 0) ReadLatches(ref scan);
        scan.Scan += (fields & ScanFields.Number) != 0 ? _block.Signed() : 1;
        if ((fields & ScanFields.Second) != 0) ReadSecond(ref scan);
        scan.Now = TimeSpan.FromTicks(scan.Now.Ticks + _steps.Clock);
        for (int i = 0; i < Capacity.Devices; i++)
            scan.Watermarks[i] += _steps.Watermarks[i];
    }

    private void ReadWatermarks()
    {
        for (int i = 0; i < Capacity.Devices; i++)
            _steps.Watermarks[i] += _block.Signed();
    }

    private void ReadDemands(ref ScanRecord scan)
    {
        int count = _block.UpTo(Capacity.Interlocks);
        ulong changed = _block.Unsigned();
        for (int i = 0; i < Capacity.Interlocks; i++)
        {
            if (i >= count)
                scan.Demands[i] = default;
            else if ((changed & (1u << i)) != 0)
                ReadDemand(ref scan.Demands[i]);
        }
        scan.InterlockCount = (byte)count;
    }

    private void ReadDemand(ref Demand demand)
    {
        demand.Value = _block.Double();
        demand.Limit = _block.Double();
        demand.Margin = _block.Double();
        demand.ShownAt = TimeSpan.FromTicks(_block.Signed());
        demand.Channel = (int)_block.Signed();
        demand.Reason = (ushort)_block.Unsigned();
        demand.Action = (DemandAction)_block.Unsigned();
    }

    private void ReadOutputs(ref ScanRecord scan)
    {
        scan.Outputs.Throttle = _block.Double();
        scan.Outputs.Pulse = _block.Double();
        scan.Outputs.Switches = (OutputSwitches)_block.Unsigned();
    }

    private void ReadSecond(ref ScanRecord scan)
    {
        scan.Outputs.SecondThrottle = _block.Double();
        scan.Outputs.SecondPulse = _block.Double();
    }

    private void ReadSequence(ref ScanRecord scan)
    {
        scan.Before = (RigState)_block.Byte();
        scan.State = (RigState)_block.Byte();
        scan.Fired = (Trigger)_block.Byte();
        scan.Step = (int)_block.Signed();
        scan.Repeat = (int)_block.Signed();
        scan.Phase = (ArmingPhase)_block.Byte();
        byte flags = _block.Byte();
        scan.Finished = (flags & 1) != 0;
        scan.AtStandstill = (flags & 2) != 0;
        scan.AwaitsLook = (flags & 4) != 0;
    }

    private void ReadReceipts(ref ScanRecord scan, byte count)
    {
        if (count > Capacity.Commands)
            throw new InvalidDataException($"a scan has {count} receipts where {Capacity.Commands} is the most");
        for (int i = 0; i < count; i++)
        {
            Receipt receipt = new(_block.Signed(), (CommandKind)_block.Byte(), (CommandSource)_block.Byte(), (RefusalReason)_block.Byte());
            scan.Receipts[i] = receipt.Kind == CommandKind.Answer ? receipt with { Value = BitConverter.UInt64BitsToDouble(_block.Bits()) } : receipt;
        }
        for (int i = count; i < scan.ReceiptCount; i++)
            scan.Receipts[i] = default;
        scan.ReceiptCount = count;
    }

    private void ReadLatches(ref ScanRecord scan)
    {
        scan.Latched = (uint)_block.Unsigned();
        scan.NewlyLatched = (uint)_block.Unsigned();
        scan.Causes = (TripCause)_block.Unsigned();
        scan.NewCauses = (TripCause)_block.Unsigned();
    }
}
