using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Commands;

public class RefusalBookTests
{
    private readonly ManualTime _time = new();
    private readonly List<string> _told = [];

    private RefusalBook Book => field ??= new RefusalBook(_time, (_, text, _) => _told.Add(text));

    [Fact]
    public void A_flood_leaves_a_line_at_once_and_then_a_number_now_and_then()
    {
        for (int i = 0; i < 1000; i++)
            Book.Add(RefusalKind.Malformed, "stop", "");
        Assert.Single(_told);
        _time.Pass(RefusalBook.Pause);
        Book.Add(RefusalKind.Malformed, "stop", "");
        Assert.Equal(2, _told.Count);
        Assert.Contains("999 more", _told[1]);
        Assert.Equal(1001, Book.Count);
    }

    [Fact]
    public void Kinds_do_not_hide_each_other()
    {
        foreach (RefusalKind kind in Enum.GetValues<RefusalKind>())
            Book.Add(kind, "stop", "");
        Assert.Equal(Enum.GetValues<RefusalKind>().Length, _told.Distinct().Count());
    }

    [Fact]
    public void At_the_end_what_was_only_counted_is_told_once()
    {
        for (int i = 0; i < 5; i++)
            Book.Add(RefusalKind.Retained, "stop", "");
        Book.Close();
        Book.Close();
        Assert.Equal(2, _told.Count);
        Assert.StartsWith("4 more", _told[1]);
    }
}
