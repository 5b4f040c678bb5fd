using RigControl.Model.Records;

namespace RigControl.Logbook.Tests.Support;

/// <summary>A recorder in a process of its own. It says on standard output which chunk is committed, and never ends by itself.</summary>
internal static class EndlessWriter
{
    public const string Option = "--record";

    public static int Record(string path, string run)
    {
        using LogbookFile logbook = LogbookFile.Open(path);
        using IRunRecorder recorder = logbook.Begin(RunMaker.Header(run));
        RecordChunk chunk = new(RunMaker.Devices);
        for (int number = 0; ; number++)
        {
            RunMaker.Fill(chunk, number);
            recorder.Append(chunk);
            recorder.Commit();
            Console.Out.WriteLine(number);
            Console.Out.Flush();
        }
    }
}
