namespace RigControl.Model.Records;

/// <summary>
/// All that the network may do to a rig: stop it, and leave a word in the record. There is no way to arm, start, reset or
/// unlock. Any thread may call it; every member returns at once.
/// </summary>
public interface INetworkPort
{
    /// <summary>Puts a stop in. Returns the id that its receipt will carry.</summary>
    /// <param name="client">Who asked, for the record.</param>
    long Stop(string client);

    /// <summary>Leaves a word in the record: a trip that was seen, a command that was refused, a note on the link.</summary>
    /// <param name="name">One of <see cref="EventNames"/>.</param>
    /// <param name="subject">Trip, command or link it is about.</param>
    /// <param name="text">A sentence for a person.</param>
    /// <param name="client">Who asked; empty where nobody did.</param>
    void Tell(string name, string subject, string text, string client);
}
