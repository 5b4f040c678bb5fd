using System.Text;
using RigControl.Telemetry.Outage;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Outage;

/// <summary>What has to arrive is kept in order, on disk, and no longer than there is room.</summary>
public sealed class OutboxTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string File => _folder.At("outbox.jsonl");

    [Fact]
    public void What_was_put_in_comes_out_in_order_after_the_process_ended()
    {
        using (Outbox first = new(File))
        {
            for (int i = 0; i < 100; i++)
                first.Add(Event(i));
            for (int i = 0; i < 30; i++)
                first.Done(first.Next()!);
        }

        using Outbox second = new(File);
        Assert.Equal(Enumerable.Range(30, 70), Drain(second));
    }

    [Fact]
    public void A_torn_last_line_costs_that_line_and_no_other()
    {
        using (Outbox first = new(File))
        {
            for (int i = 0; i < 3; i++)
                first.Add(Event(i));
        }

        using (FileStream torn = new(File, FileMode.Open))
            torn.SetLength(torn.Length - 5);
        using (Outbox second = new(File))
            second.Add(Event(9));
        using Outbox third = new(File);
        Assert.Equal([0, 1, 9], Drain(third));
    }

    [Fact]
    public void A_torn_file_of_any_length_gives_back_a_beginning_of_what_was_put_in()
    {
        using (Outbox first = new(File))
        {
            for (int i = 0; i < 5; i++)
                first.Add(Event(i));
        }

        byte[] whole = System.IO.File.ReadAllBytes(File);
        for (int length = 0; length <= whole.Length; length += 7)
        {
            System.IO.File.WriteAllBytes(File, whole[..length]);
            using Outbox again = new(File);
            List<int> found = Drain(again);
            Assert.Equal(Enumerable.Range(0, found.Count), found);
        }
    }

    [Fact]
    public void Beyond_its_bound_the_oldest_are_given_up_and_counted()
    {
        using Outbox outbox = new(File, most: 10);
        for (int i = 0; i < 25; i++)
            outbox.Add(Event(i));
        Assert.Equal(15, outbox.GivenUp);
        Assert.Equal(Enumerable.Range(15, 10), Drain(outbox));
    }

    [Fact]
    public void An_outage_without_end_does_not_fill_the_disk()
    {
        using Outbox outbox = new(File, most: 100);
        byte[] large = new byte[64 * 1024];
        for (int i = 0; i < 2000; i++)
            outbox.Add(new Outbound(OutboundKind.Event, "", "r1", large));
        Assert.True(new FileInfo(File).Length < Outbox.MostBytes * 5);
        Assert.Equal(100, outbox.Count);
    }

    [Fact]
    public void Once_everything_has_arrived_nothing_is_left_on_the_disk()
    {
        using Outbox outbox = new(File);
        outbox.Add(Event(1));
        outbox.Done(outbox.Next()!);
        Assert.Equal(0, new FileInfo(File).Length);
        Assert.Null(outbox.Next());
    }

    [Fact]
    public void A_message_given_up_while_it_was_on_its_way_takes_no_other_with_it()
    {
        using Outbox outbox = new(File, most: 2);
        outbox.Add(Event(0));
        Outbound onItsWay = outbox.Next()!;
        outbox.Add(Event(1));
        outbox.Add(Event(2));
        outbox.Done(onItsWay);
        Assert.Equal([1, 2], Drain(outbox));
    }

    [Fact]
    public void A_second_process_of_the_same_rig_does_not_write_into_the_same_file()
    {
        using Outbox first = new(File);
        Assert.Throws<IOException>(() => new Outbox(File));
    }

    [Fact]
    public void Every_kind_comes_back_with_all_it_has()
    {
        using (Outbox first = new(File))
        {
            foreach (OutboundKind kind in Enum.GetValues<OutboundKind>())
                first.Add(new Outbound(kind, "lid \"closed\"\n", "r1", kind == OutboundKind.TripCleared ? [] : [0, 1, 255]));
        }

        using Outbox second = new(File);
        foreach (OutboundKind kind in Enum.GetValues<OutboundKind>())
        {
            Outbound next = second.Next()!;
            Assert.Equal((kind, "lid \"closed\"\n", "r1"), (next.Kind, next.Subject, next.Run));
            Assert.Equal(kind == OutboundKind.TripCleared ? [] : new byte[] { 0, 1, 255 }, next.Payload);
            second.Done(next);
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Whichever_write_fails_once_or_for_good_everything_still_goes_out_in_order_and_the_failure_is_told_once(bool lasting)
    {
        int writes = Played(new FailingStream(int.MaxValue, lasting), out _, out _);
        Assert.True(writes > 20);
        for (int nth = 1; nth <= writes; nth++)
        {
            Played(new FailingStream(nth, lasting), out List<string> sent, out List<string> told);
            Assert.Equal(Enumerable.Range(0, 20).Select(Text), sent);
            Assert.Single(told);
        }
    }

    private static int Played(FailingStream file, out List<string> sent, out List<string> told)
    {
        List<string> heard = [];
        using Outbox box = new(file, failed: heard.Add);
        sent = [];
        for (int i = 0; i < 20; i++)
        {
            box.Add(Message(i));
            // Two in and one out, then the rest.
            while (box.Next() is { } next && (i % 2 == 1 || i == 19))
            {
                sent.Add(Encoding.UTF8.GetString(next.Payload));
                box.Done(next);
                if (i < 19)
                    break;
            }
        }

        told = heard;
        return file.Calls;
    }

    private static Outbound Message(int number) => new(OutboundKind.Event, "", "r1", Encoding.UTF8.GetBytes(Text(number)));

    private static string Text(int number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>A disk whose nth write fails, once or from then on.</summary>
    private sealed class FailingStream(int nth, bool lasting) : MemoryStream
    {
        public int Calls { get; private set; }

        public override void Write(byte[] buffer, int offset, int count)
        {
            Calls++;
            if (Calls == nth || (lasting && Calls > nth))
                throw new IOException("no space left");
            base.Write(buffer, offset, count);
        }
    }

    public void Dispose() => _folder.Dispose();

    private static Outbound Event(int number) => new(OutboundKind.Event, "", "r1", Encoding.ASCII.GetBytes(number.ToString(System.Globalization.CultureInfo.InvariantCulture)));

    private static List<int> Drain(Outbox outbox)
    {
        List<int> found = [];
        while (outbox.Next() is { } next)
        {
            found.Add(int.Parse(Encoding.ASCII.GetString(next.Payload), System.Globalization.CultureInfo.InvariantCulture));
            outbox.Done(next);
        }

        return found;
    }
}
