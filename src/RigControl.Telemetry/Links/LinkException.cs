namespace RigControl.Telemetry.Links;

/// <summary>The broker cannot be reached or used. The message is a sentence that a person can act on.</summary>
public sealed class LinkException : Exception
{
    public LinkException(string message) : base(message) { }

    public LinkException(string message, Exception cause) : base(message, cause) { }
}
