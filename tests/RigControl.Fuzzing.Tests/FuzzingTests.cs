namespace RigControl.Fuzzing.Tests;

/// <summary>A fixed budget of spoilt inputs, everything that ever broke a promise, and that the fuzzer would see one broken.</summary>
public class FuzzingTests
{
    private const int Budget = 20_000;

    public static TheoryData<string> Names() => [.. AllTargets.All.Select(t => t.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_fixed_budget_of_spoilt_inputs_breaks_no_promise(string name)
    {
        ITarget target = AllTargets.All.Single(t => t.Name == name);
        Mutator mutator = new(target.Corpus);
        for (int seed = 1; seed <= Budget; seed++)
        {
            if (Fuzzer.Try(target, mutator, seed) is { } found)
                Assert.Fail($"seed {seed}: {found.What}; kept as {Crashers.Keep(target, Fuzzer.Shorten(target, found.Input))}");
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_input_that_once_broke_a_promise_is_taken_now(string name)
    {
        ITarget target = AllTargets.All.Single(t => t.Name == name);
        foreach (string file in Crashers.Of(target))
            Assert.Null(Fuzzer.WhatBreaks(target, File.ReadAllBytes(file)));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_valid_inputs_that_all_is_made_from_break_nothing(string name)
    {
        ITarget target = AllTargets.All.Single(t => t.Name == name);
        Assert.NotEmpty(target.Corpus);
        Assert.All(target.Corpus, input => Assert.Null(Fuzzer.WhatBreaks(target, input)));
    }

    [Fact]
    public void The_same_seed_gives_the_same_input()
    {
        Mutator mutator = new(AllTargets.All[0].Corpus);
        Assert.Equal(mutator.Next(new Random(7)), mutator.Next(new Random(7)));
        Assert.NotEqual(mutator.Next(new Random(7)), mutator.Next(new Random(8)));
    }

    [Fact]
    public void A_planted_defect_is_found_and_made_short()
    {
        Planted target = new();
        Mutator mutator = new(target.Corpus);
        Crasher? found = Enumerable.Range(1, Budget).Select(seed => Fuzzer.Try(target, mutator, seed)).FirstOrDefault(c => c is not null);
        Assert.NotNull(found);
        Assert.Equal("65536"u8.ToArray(), Fuzzer.Shorten(target, found.Input));
    }

    private sealed class Planted : ITarget
    {
        public string Name => "planted";

        public IReadOnlyList<byte[]> Corpus { get; } = ["width: 100\nheight: 200\n"u8.ToArray()];

        public void Take(byte[] input)
        {
            if (input.AsSpan().IndexOf("65536"u8) >= 0)
                throw new OverflowException("it does not fit");
        }
    }
}
