using System.Text;
using RigControl.Board.Simulator.Line;
using RigControl.Devices.RigBoard.Readings;
using RigControl.Devices.RigBoard.Tests.Readings;
using RigControl.Model.Signals;
using LineFields = RigControl.Devices.RigBoard.Protocol.LineFields;
using Status = RigControl.Devices.RigBoard.Protocol.BoardStatus;

namespace RigControl.Board.Tests.Bench;

/// <summary>A board's lines as the product's own reader takes them, and when a host believes by them that the rotor stands, at some limits at once.</summary>
internal sealed class LastSeconds(params double[] limits)
{
    private static readonly TimeSpan CoastDown = TimeSpan.FromSeconds(60);

    private readonly RotorSpeed _reader = new(1, CoastDown);
    private readonly Follower[] _hosts = [.. limits.Select(l => new Follower(l))];
    private readonly double?[] _toldAt = new double?[limits.Length];
    private BoardLine? _line;

    public (double Value, Quality Quality) Speed { get; private set; } = (0, Quality.Bad);

    /// <summary>The last reading of a rotor that turned, rpm.</summary>
    public double LastTurn { get; private set; }

    /// <summary>By the board's clock, s.</summary>
    public double Now { get; private set; }

    public SpeedDoubt Doubt => _reader.Doubt;

    /// <summary>Whether it is believed at one of the limits, by its place.</summary>
    public bool Stands(int limit) => LastTurn > 0 && _hosts[limit].Stands;

    /// <summary>When that was so for the first time, s; null where it never was.</summary>
    public double? ToldAt(int limit) => _toldAt[limit];

    /// <summary>Takes the latest line, once.</summary>
    public void See(LineHost host)
    {
        if (host.Status is not { } heard || heard.Line == _line)
            return;
        _line = heard.Line;
        LineFields fields = new(Encoding.ASCII.GetBytes(_line.ToString()));
        fields.Text();
        Assert.True(Status.TryRead(fields, out Status status));
        TimeSpan at = TimeSpan.FromMicroseconds(status.Time);
        (Now, Speed) = (at.TotalSeconds, _reader.At(status, at));
        LastTurn = Speed.Value > 0 ? Speed.Value : LastTurn;
        for (int i = 0; i < _hosts.Length; i++)
        {
            _hosts[i].See(Now, Speed.Value, Speed.Quality);
            _toldAt[i] ??= Stands(i) ? Now : null;
        }
    }
}
