using RigControl.Model.Rig;

namespace RigControl.Telemetry.Payloads;

/// <summary>Where the rig stands.</summary>
/// <param name="Step">Step of the procedure, from 1.</param>
/// <param name="Repeat">Repeat, from 1; 0 before the first.</param>
/// <param name="Trips">Latched causes, by their ids.</param>
/// <param name="At">Since the run's clock started.</param>
/// <param name="Time">By the wall clock.</param>
internal sealed record StatePayload(
    RigState State, ArmingPhase Phase, int Step, int Repeat, bool AtStandstill, IReadOnlyList<string> Trips, TimeSpan At, DateTimeOffset Time)
{
    public byte[] Of(string run, long session) => Json.Object(json =>
    {
        json.WriteNumber("session", session);
        json.WriteString("run", run);
        json.WriteString("state", State.ToString());
        json.WriteString("phase", Phase.ToString());
        json.WriteNumber("step", Step);
        json.WriteNumber("repeat", Repeat);
        json.WriteBoolean("atStandstill", AtStandstill);
        json.WriteStartArray("trips");
        foreach (string trip in Trips)
            json.WriteStringValue(trip);
        json.WriteEndArray();
        json.WriteNumber("at", Json.Seconds(At));
        json.WriteString("time", Json.Time(Time));
    });
}
