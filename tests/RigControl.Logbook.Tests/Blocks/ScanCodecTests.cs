using RigControl.Logbook.Blocks;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Logbook.Tests.Blocks;

/// <summary>Scan records must come back as promised.</summary>
public class ScanCodecTests
{
    private readonly ScanEncoder _encoder = new();

    [Fact]
    public void Any_scans_come_back_with_everything_that_is_promised() => Seeds.Each(150, random => ComesBack(ScanMaker.Any(random, random.Next(40))));

    [Fact]
    public void Scans_with_every_field_set_come_back() => Seeds.Each(50, random => ComesBack([ScanMaker.Full(random), ScanMaker.Full(random), default, ScanMaker.Full(random)]));

    [Fact]
    public void The_scans_of_these_tests_leave_no_field_out() => Assert.Equal(Flat.AllFields, Flat.SetFields(ScanMaker.Full(new Random(1))));

    [Fact]
    public void An_idle_scan_takes_nine_bytes()
    {
        ScanRecord[] scans = new ScanRecord[RecordChunk.ScanCapacity];
        ScanMaker.Idle(scans, first: 1, interlocks: 10, devices: 3, samplesPerDevice: 2);
        int all = _encoder.Encode(scans).Length, half = _encoder.Encode(scans.AsSpan(0, 128)).Length;
        Assert.Equal(9 * 128, all - half);
    }

    [Fact]
    public void A_demand_whose_reason_changes_is_kept_in_full()
    {
        ScanRecord[] scans = new ScanRecord[3];
        ScanMaker.Idle(scans, first: 1, interlocks: 2, devices: 1, samplesPerDevice: 1);
        Demand hot = Demand.Object(DemandAction.StopOutput, 4, 9, 81.3, 80, -0.01625, TimeSpan.FromMilliseconds(2.5));
        scans[1].Demands[1] = hot;
        Assert.Equal(hot, Decode(_encoder.Encode(scans).ToArray())[1].Demands[1]);
    }

    [Fact]
    public void What_an_untroubled_interlock_saw_stands_still_until_its_action_or_reason_changes()
    {
        ScanRecord[] scans = new ScanRecord[3];
        ScanMaker.Idle(scans, first: 1, interlocks: 1, devices: 1, samplesPerDevice: 1);
        scans[2].Demands[0].Value = 99;
        Assert.Equal(scans[0].Demands[0], Decode(_encoder.Encode(scans).ToArray())[2].Demands[0]);
    }

    [Fact]
    public void A_demand_that_nobody_filled_in_is_kept_in_full_at_the_start_of_a_block()
    {
        ScanRecord[] scans = new ScanRecord[1];
        scans[0].InterlockCount = 1;
        scans[0].Demands[0].Value = 12.5;
        Assert.Equal(12.5, Decode(_encoder.Encode(scans).ToArray())[0].Demands[0].Value);
    }

    [Fact]
    public void A_block_of_nonsense_is_called_damaged_or_read_and_nothing_else_happens() => Seeds.Each(1000, random =>
    {
        byte[] block = _encoder.Encode(ScanMaker.Any(random, random.Next(1, 10))).ToArray();
        Damage.Sealed(random, ref block);
        try
        {
            Assert.InRange(Decode(block).Count, 0, block.Length);
        }
        catch (InvalidDataException)
        {
            // Seen for what it is.
        }
    });

    [Fact]
    public void Every_changed_byte_is_called_damage()
    {
        byte[] block = _encoder.Encode(ScanMaker.Any(new Random(5), 10)).ToArray();
        for (int at = 0; at < block.Length; at++)
        {
            block[at] ^= 0x10;
            Assert.Throws<InvalidDataException>(() => Decode(block));
            block[at] ^= 0x10;
        }
    }

    [Fact]
    public void Every_shortened_block_is_called_damaged()
    {
        byte[] block = _encoder.Encode(ScanMaker.Any(new Random(4), 10)).ToArray();
        for (int length = 0; length < block.Length - BlockSeal.Length; length++)
        {
            Damage.Reseal(block.AsSpan(0, length), out byte[] shortened);
            Assert.Throws<InvalidDataException>(() => Decode(shortened));
        }
    }

    [Fact]
    public void A_block_of_a_later_kind_is_refused_by_its_version()
    {
        byte[] block = _encoder.Encode(new ScanRecord[1]).ToArray();
        block[0] = ScanEncoder.Version + 1;
        Damage.Reseal(block.AsSpan(0, block.Length - BlockSeal.Length), out block);
        InvalidDataException fault = Assert.Throws<InvalidDataException>(() => Decode(block));
        Assert.Contains("version 2", fault.Message, StringComparison.Ordinal);
    }

    private void ComesBack(ScanRecord[] scans)
    {
        List<ScanRecord> back = Decode(_encoder.Encode(scans).ToArray());
        Assert.Equal(scans.Length, back.Count);
        ScanRecord[] promised = Promised(scans);
        for (int i = 0; i < scans.Length; i++)
            Assert.Equal(Flat.Of(promised[i]), Flat.Of(back[i]));
    }

    /// <summary>The promise in the plainest words: a demand holds still while its action and reason do.</summary>
    private static ScanRecord[] Promised(ScanRecord[] scans)
    {
        ScanRecord[] promised = [.. scans];
        for (int i = 1; i < scans.Length; i++)
        {
            for (int k = 0; k < Math.Min(scans[i].InterlockCount, scans[i - 1].InterlockCount); k++)
            {
                if (scans[i].Demands[k].Action == scans[i - 1].Demands[k].Action && scans[i].Demands[k].Reason == scans[i - 1].Demands[k].Reason)
                    promised[i].Demands[k] = promised[i - 1].Demands[k];
            }
        }
        return promised;
    }

    private static List<ScanRecord> Decode(byte[] block)
    {
        ScanDecoder decoder = new();
        ScanRecord scan = default;
        decoder.Start(block, ref scan);
        List<ScanRecord> scans = [];
        while (decoder.Next(ref scan))
            scans.Add(scan);
        return scans;
    }
}
