namespace RigControl.Runtime.Tests.Scanning;

public class CommandInboxTests
{
    private readonly CommandInbox _inbox = new();

    [Fact]
    public void Commands_come_out_in_the_order_of_arrival_with_rising_numbers()
    {
        Post(CommandKind.Reset, CommandKind.Arm, CommandKind.Start);

        Assert.Equal([(1, CommandKind.Reset), (2, CommandKind.Arm), (3, CommandKind.Start)], Drain().Select(c => (c.Id, c.Kind)));
    }

    [Fact]
    public void A_stop_overtakes_everything_that_waits()
    {
        Post(CommandKind.Reset, CommandKind.Arm, CommandKind.Stop);

        Assert.Equal([CommandKind.Stop, CommandKind.Reset, CommandKind.Arm], Drain().Select(c => c.Kind));
    }

    [Fact]
    public void A_full_inbox_refuses_everything_but_a_stop()
    {
        for (int i = 0; i < CommandInbox.Limit; i++)
            Assert.NotEqual(0, _inbox.Post(CommandKind.Mark, CommandSource.Network));

        Assert.Equal(0, _inbox.Post(CommandKind.Start, CommandSource.Bench));
        Assert.NotEqual(0, _inbox.Post(CommandKind.Stop, CommandSource.Network));
        Assert.Equal(CommandKind.Stop, Drain()[0].Kind);
    }

    [Fact]
    public void Stops_that_wait_together_are_one_command()
    {
        long first = _inbox.Post(CommandKind.Stop, CommandSource.Bench);

        Assert.Equal(first, _inbox.Post(CommandKind.Stop, CommandSource.Network));
        Assert.Equal(new Command(first, CommandKind.Stop, CommandSource.Bench), Assert.Single(Drain()));
        Assert.NotEqual(first, _inbox.Post(CommandKind.Stop, CommandSource.Bench));
    }

    [Fact]
    public void Who_gave_a_command_is_known_for_as_long_as_it_is_among_the_latest()
    {
        long first = _inbox.Post(CommandKind.Stop, CommandSource.Network, issuer: "doorway");
        Assert.Equal("doorway", _inbox.IssuerOf(first));
        Drain();
        for (int i = 0; i < CommandInbox.Limit; i++)
            _inbox.Post(CommandKind.Mark, CommandSource.Bench);

        Assert.Equal("", _inbox.IssuerOf(first));
        Assert.Equal("", _inbox.IssuerOf(first + 1));
        Assert.Equal("", _inbox.IssuerOf(1_000_000));
    }

    [Fact]
    public void What_does_not_fit_into_one_scan_waits_for_the_next()
    {
        for (int i = 0; i < 11; i++)
            _inbox.Post(CommandKind.Mark, CommandSource.Bench);

        Assert.Equal([8, 3, 0], new[] { Drain(8).Length, Drain(8).Length, Drain(8).Length });
    }

    [Fact]
    public void An_inbox_with_room_again_takes_commands_again()
    {
        for (int i = 0; i < CommandInbox.Limit; i++)
            _inbox.Post(CommandKind.Mark, CommandSource.Bench);
        Drain(1);

        Assert.NotEqual(0, _inbox.Post(CommandKind.Mark, CommandSource.Bench));
        Assert.Equal(0, _inbox.Post(CommandKind.Mark, CommandSource.Bench));
    }

    [Fact]
    public void Many_threads_at_once_lose_no_command_that_was_accepted()
    {
        const int Each = 2000;
        List<long>[] accepted = [[], [], [], []];
        Thread[] threads = [.. accepted.Select((mine, t) => new Thread(() =>
        {
            for (int i = 0; i < Each; i++)
                mine.Add(_inbox.Post(i % 10 == 0 ? CommandKind.Stop : CommandKind.Mark, (CommandSource)(t % 3)));
        }))];
        foreach (Thread thread in threads)
            thread.Start();

        List<long> taken = [];
        while (threads.Any(t => t.IsAlive))
            taken.AddRange(Drain(Capacity.Commands).Select(c => c.Id));
        taken.AddRange(Drain(CommandInbox.Limit + 1).Select(c => c.Id));

        Assert.Equal(taken.Count, taken.Distinct().Count());
        Assert.Equal(accepted.SelectMany(a => a).Where(id => id > 0).Distinct().Order(), taken.Order());
        Assert.Equal(Enumerable.Range(1, taken.Count).Select(i => (long)i), taken.Order());
    }

    private void Post(params CommandKind[] kinds)
    {
        foreach (CommandKind kind in kinds)
            _inbox.Post(kind, CommandSource.Bench);
    }

    private Command[] Drain(int most = 100)
    {
        Command[] into = new Command[most];
        return into[.._inbox.Drain(into)];
    }
}
