using RigControl.Model.Records;
using RigControl.Telemetry.Commands;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Outage;

namespace RigControl.Telemetry.Publishing;

/// <summary>What a speaker speaks from.</summary>
internal sealed record SpeakerParts(
    Topics Topics, RunHeader Header, TimeSpan ScanPeriod, RunSight Sight, TripBoard Trips, Collector Collector, StateFolder Folder, AnswerQueue Answers,
    CommandIntake Intake, RefusalBook Refusals, LinkTimes Times, TimeProvider Time, Action<string> Note);
