using System.Text.Json;
using RigControl.Cli.Reporting;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Reports.Pages;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Tests.Reporting;

/// <summary>The report of a verification says of each step what it rests on.</summary>
public sealed class ReportReaderTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-test-").FullName;
    private readonly LogbookFile _book;

    public ReportReaderTests() => _book = LogbookFile.Open(Path.Combine(_folder, "logbook.sqlite"));

    public void Dispose()
    {
        _book.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Trait("Requirement", "SAF-094")]
    [Fact]
    public void What_was_not_provoked_stands_in_the_report_with_why()
    {
        Record(new ProvocationResult("stop", 3, "stop-clear objects", "every sign", 0.011, 0.2, true, false));
        string page = RunPage.Write(ReportReader.Run(_book, "v", Installed.Plugins));
        Assert.Contains("What was not provoked", page, StringComparison.Ordinal);
        Assert.Contains("<li>pulses-cease: it cannot</li>", page, StringComparison.Ordinal);
    }

    [Fact]
    public void What_rests_on_the_operator_s_word_is_marked_so_and_what_was_measured_is_not()
    {
        Record(
            new("bolt-under-pull", 1, "enclosure.lid above 0.5", "seen", null, null, true, true),
            new("stop", 3, "stop-clear objects", "every sign", 0.011, 0.2, true, false),
            new("direction", 3, "as it should", "the other way", null, null, false, true));
        RunReport report = ReportReader.Run(_book, "v", Installed.Plugins);
        Assert.Equal(
            ["enclosure.lid above 0.5, on the operator's word", "stop-clear objects", "expected as it should; the other way, on the operator's word"],
            report.Verification!.Steps.Select(s => s.What));
        string page = RunPage.Write(report);
        Assert.Equal(2, page.Split("on the operator&#39;s word").Length - 1 + page.Split("on the operator's word").Length - 1);
    }

    [Fact]
    public void How_long_the_power_took_and_what_a_sign_does_not_show_stand_in_the_report_of_a_verification()
    {
        Record(new ProvocationResult("power-cut", 3, "output.power below 0.5", "every sign", 0.01, 0.2, true, false) { PowerGone = 0.012, PowerAllowed = 0.2, Reserve = "the current shows little" });
        RunReport report = ReportReader.Run(_book, "v", Installed.Plugins);
        Assert.Equal(["output.power below 0.5; power gone after 12 of 200 ms; the current shows little"], report.Verification!.Steps.Select(s => s.What));
    }

    private void Record(params ProvocationResult[] provocations)
    {
        FailsafeProof proof = new() { Run = "v", MadeAt = DateTimeOffset.UnixEpoch, ValidUntil = DateTimeOffset.UnixEpoch, Simulated = false, BoundTo = [], Provocations = provocations, NotProvoked = [new("pulses-cease", "it cannot")] };
        RunHeader header = new()
        {
            Run = "v", StartedAt = DateTimeOffset.UnixEpoch, Simulated = false, Seed = 0, Operator = "o", Software = "1",
            Procedure = new(VerificationProcedure.Name, ""), Rig = new("box", ""), Article = new("disc", ""), Plugins = [], Devices = [], Interlocks = [], Channels = [],
        };
        using IRunRecorder recorder = _book.Begin(header);
        RecordChunk chunk = new(0);
        chunk.Events.Add(new RigEvent(TimeSpan.Zero, 0, EventNames.FailsafeProof, "", "the failsafe was verified", new Dictionary<string, object> { ["proof"] = JsonSerializer.Serialize(proof) }));
        recorder.Append(chunk);
        recorder.Finish(new RunEnd(RunOutcome.Completed, header.StartedAt, null), []);
    }
}
