using RigControl.Model.Signals;

namespace RigControl.Model.Records;

/// <summary>
/// Watches a run as it happens. Called by the scan itself: every member must return at once, wait for nobody and, while
/// nothing happens, allocate nothing. Nothing can go back into the scan from here.
/// </summary>
public interface IRunSink
{
    /// <summary>Sees a scan and the image it decided on.</summary>
    void See(in ScanRecord record, in InputImage image);

    /// <summary>Hears what happened, in the order of the record.</summary>
    void Hear(RigEvent happened);
}
