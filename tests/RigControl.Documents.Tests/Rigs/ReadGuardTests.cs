using RigControl.Documents.Tests.Support;
using RigControl.Model.Rig;

namespace RigControl.Documents.Tests.Rigs;

/// <summary>What a builder declares of the guard is kept as declared, in the units of the model.</summary>
public class ReadGuardTests
{
    [Fact]
    public void A_guard_is_read_as_written()
    {
        GuardDefinition guard = Read(Samples.Rig)!;
        Assert.Equal((GuardKind.Fixed, "tried with the key"), (guard.Kind, guard.Source));
        Assert.Equal((TimeSpan.FromSeconds(20), 0.5), (guard.OpeningTime, guard.Margin));
        Assert.Equal((0.4, 0.02), (guard.Distance!.Value, guard.Gap!.Value));
        Assert.Equal(new AuxiliaryRelease(NeedsTool: true, OpensCoil: false), guard.Release);
    }

    [Fact]
    public void An_interlocked_guard_need_not_say_more_than_what_it_is()
    {
        GuardDefinition guard = Read("rig: r\nscan: 10 Hz\nstandstill: { below: 1 rpm, for: 1 s }\ndevices: []\ninterlocks: []\nguard: { kind: interlocked, source: seen }")!;
        Assert.Equal((GuardKind.Interlocked, null, null, null, null), (guard.Kind, guard.OpeningTime, guard.Margin, guard.Distance, guard.Release));
    }

    [Fact]
    public void A_rig_may_say_nothing_of_its_guard() => Assert.Null(Read(Samples.Rig[..Samples.Rig.IndexOf("guard:", StringComparison.Ordinal)]));

    [Fact]
    public void A_guard_that_nobody_filled_in_is_one_that_is_refused() => Assert.Equal(GuardKind.Enterable, default);

    [Trait("Requirement", "SAF-083")]
    [Fact]
    public void An_enclosure_into_which_a_person_can_get_is_refused_by_everything_that_reads_the_rig()
    {
        Reading<RigDefinition> reading = DocumentReader.ReadRig(Samples.Rig.Replace("kind: fixed", "kind: enterable", StringComparison.Ordinal), "f", Samples.Kinds);
        Assert.Null(reading.Value);
        Assert.Contains("nothing here can see that nobody is inside", Assert.Single(reading.Problems).What, StringComparison.Ordinal);
    }

    [Fact]
    public void The_source_of_a_rating_is_kept_beside_it()
    {
        RigDefinition rig = DocumentReader.ReadRig(Samples.Rig, "f", Samples.Kinds).Value!;
        Assert.Equal((600.0, "test sheet of the box"), (rig.EnclosureRating!.Value, rig.EnclosureSource));
    }

    private static GuardDefinition? Read(string text)
    {
        Reading<RigDefinition> reading = DocumentReader.ReadRig(text, "f", Samples.Kinds);
        Assert.Empty(reading.Problems);
        return reading.Value!.Guard;
    }
}
