using RigControl.Contracts;
using RigControl.Devices.RigBoard.Tests.Double;

namespace RigControl.Devices.RigBoard.Tests.Opening;

public class GreetingTests
{
    [Fact]
    public void A_good_board_is_greeted_loaded_and_known_by_name_firmware_and_start()
    {
        using Session session = new();
        Assert.Equal("bench-1", session.Device.Identity["board"]);
        Assert.Equal("1.0.0", session.Device.Identity["firmware"]);
        Assert.Equal("1", session.Device.Identity["protocol"]);
        Assert.Equal("1234ABCD", session.Device.Identity["nonce"]);
        Assert.Equal("power", session.Device.Identity["last-reset"]);
        Assert.Equal("1000 1000 2000 1000 400 1 6316 144 880 1 1000 1 100 100 20 stop none", session.Board.Configuration);
    }

    [Fact]
    public void A_board_in_the_middle_of_a_line_and_noise_before_it_do_not_matter() =>
        Refused(null, (_, line) => line.Put("48 9999999 \u0007\u00ff\n\nnow 0001 #0000\n"u8));

    [Fact]
    public void A_port_with_nothing_behind_it_is_told() =>
        Refused("no board answers on the test's line", (board, _) => board.Dead = true);

    [Fact]
    public void A_port_with_something_else_behind_it_is_told() =>
        Refused("not as a rig board at 500000 baud", (_, line) => line.Mangle = bytes => [.. bytes.Select(b => (byte)(b | 0x80)), (byte)'\n']);

    [Theory]
    [InlineData("2")]
    [InlineData("17")]
    public void A_board_of_another_protocol_is_told_with_both_versions(string version) =>
        Refused($"refuses version 1 of the line protocol", (board, _) => board.Protocol = version);

    [Fact]
    public void A_board_that_greets_with_another_protocol_is_told_with_both_versions() =>
        Refused("speaks version 2 of the line protocol, this program version 1", (board, line) =>
        {
            board.Protocol = "2";
            board.Ignore.Add("hello");
            line.FailWrite = _ => { board.Restart(); return null; };
        });

    [Fact]
    public void A_damaged_program_is_told() => Refused("found its own program damaged", (board, _) => board.Flash = "bad");

    [Fact]
    public void Faulty_memory_is_told() => Refused("found its memory faulty: replace it", (board, _) => board.Memory = "bad");

    [Fact]
    public void Limits_that_the_board_refuses_are_told_with_its_reason() =>
        Refused("refuses the limits it was sent (range)", (board, _) => board.Refuse["load"] = ("range", 1));

    [Fact]
    public void Limits_that_come_back_changed_are_told_with_both() =>
        Refused("holds other limits (1001 ", (board, _) => board.EchoOfLoad = text => "1001" + text[4..]);

    [Fact]
    public void A_board_that_is_busy_for_a_moment_is_waited_for() => Refused(null, (board, _) => board.Refuse["load"] = ("busy", 3));

    [Fact]
    public void A_board_that_stays_busy_is_told() =>
        Refused("is still driving its output and takes no new limits", (board, _) => board.Refuse["load"] = ("busy", int.MaxValue));

    [Fact]
    public void A_board_that_does_not_answer_to_its_limits_is_told() =>
        Refused("does not answer when its limits are loaded", (board, _) => board.Ignore.Add("load"));

    [Fact]
    public void A_board_that_stops_what_its_former_host_left_running_can_be_opened_again()
    {
        using Session session = new();
        session.SpinUp();
        LineDouble second = new(session.Board, session.Time);
        using RigBoardDevice again = Workshop.Open(second, session.Time);
        session.Board.Tick();
        Assert.Equal((false, 0), (session.Board.Power, session.Board.Pulse));
    }

    [Fact]
    public void A_quarter_of_the_lines_lost_or_torn_does_not_keep_a_board_from_being_opened()
    {
        for (int seed = 1; seed <= 50; seed++)
        {
            Random chance = new(seed);
            using Session session = new(before: (_, line) => line.Mangle = bytes => chance.Next(4) > 0 ? bytes : bytes[..chance.Next(bytes.Length)]);
            Assert.True(session.Device.Identity["board"] == "bench-1", $"seed {seed}");
        }
    }

    [Fact]
    public void Whichever_read_or_write_fails_opening_ends_in_a_sentence_and_the_line_is_closed()
    {
        for (int n = 1; n <= 8; n++)
        {
            AssertFails(line => line.FailRead = Nth(n, lasting: false), "reading from the board on the test's line failed: gone.");
            AssertFails(line => line.FailRead = Nth(n, lasting: true), "reading from the board");
        }

        for (int n = 1; n <= 2; n++)
            AssertFails(line => line.FailWrite = Nth(n, lasting: false), "writing to the board on the test's line failed: gone.");
    }

    private static Func<int, Exception?> Nth(int n, bool lasting) => at => at == n || (lasting && at > n) ? new IOException("gone.") : null;

    private static void AssertFails(Action<LineDouble> fault, string sentence)
    {
        LineDouble? used = null;
        DeviceException failure = Assert.Throws<DeviceException>(() => new Session(before: (_, line) => fault(used = line)));
        Assert.StartsWith(sentence, failure.Message, StringComparison.Ordinal);
        Assert.True(used!.Closed);
    }

    private static void Refused(string? sentence, Action<BoardDouble, LineDouble> before)
    {
        if (sentence is null)
        {
            using Session session = new(before: before);
            Assert.Equal("bench-1", session.Device.Identity["board"]);
            return;
        }

        LineDouble? used = null;
        DeviceException failure = Assert.Throws<DeviceException>(() => new Session(before: (board, line) => before(board, used = line)));
        Assert.Contains(sentence, failure.Message, StringComparison.Ordinal);
        Assert.True(used!.Closed);
    }
}
