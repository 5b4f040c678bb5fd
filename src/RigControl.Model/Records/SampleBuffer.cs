using RigControl.Model.Signals;

namespace RigControl.Model.Records;

/// <summary>A growing list of samples that keeps its memory and hands out spans.</summary>
public sealed class SampleBuffer
{
    private Sample[] _samples = new Sample[64];

    public int Count { get; private set; }

    public ReadOnlySpan<Sample> Samples => _samples.AsSpan(0, Count);

    public void Add(in Sample sample)
    {
        if (Count == _samples.Length)
            Array.Resize(ref _samples, Count * 2);
        _samples[Count++] = sample;
    }

    public void Add(ReadOnlySpan<Sample> samples)
    {
        while (Count + samples.Length > _samples.Length)
            Array.Resize(ref _samples, _samples.Length * 2);
        samples.CopyTo(_samples.AsSpan(Count));
        Count += samples.Length;
    }

    public void Clear() => Count = 0;
}
