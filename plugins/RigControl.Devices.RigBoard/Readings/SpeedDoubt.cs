namespace RigControl.Devices.RigBoard.Readings;

/// <summary>Why the speed is Bad; the number is what <c>board.speed-doubt</c> shows.</summary>
internal enum SpeedDoubt
{
    None = 0,

    /// <summary>Marks broke off although the rotor had to give another one, by how it slowed over its last turns.</summary>
    BrokeOff = 1,

    /// <summary>The board found the tachometer lost.</summary>
    Lost = 2,
}
